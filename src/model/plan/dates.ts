/** Whether a date is on the calendar. @param date `YYYY-MM-DD` by its form */
export function isDate(date: string): boolean {
  // No month is shorter, and this is asked of each hour of a weather table at each edit.
  if (/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|1\d|2[0-8])$/.test(date)) return true
  const time = Date.parse(`${date}T00:00Z`)
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(date)
}
