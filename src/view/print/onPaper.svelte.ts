/** What is printed: the day on one page, unless a strip is asked for, or a sheet for building the lead, which Charging prints itself. */
export const onPaper = $state<{ what: 'sheet' | 'strip' | 'build' }>({ what: 'sheet' })
