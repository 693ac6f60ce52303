/** Address of a page of the documentation, from the page's own. */
export const docsAddress = (page: string): string => `./docs/${page}`
