/** What is printed: the day on one page, unless a strip is asked for. */
export const onPaper = $state<{ what: 'sheet' | 'strip' }>({ what: 'sheet' })
