/**
 * Local date and time after some seconds, without any zone: the plan's start says the local clock.
 *
 * @param start `YYYY-MM-DDTHH:mm`
 * @param seconds since the start
 * @returns `YYYY-MM-DD HH:mm`, rounded to the minute
 */
export function dateTimeAfter(start: string, seconds: number): string {
  const minutes = Math.round(Date.parse(`${start}Z`) / 60000 + seconds / 60)
  return new Date(minutes * 60000).toISOString().slice(0, 16).replace('T', ' ')
}

/**
 * Clock time after some seconds, with the number of days gone by where it is another date.
 *
 * @param start `YYYY-MM-DDTHH:mm`
 * @param seconds since the start
 * @returns `HH:mm`, or `HH:mm +1 d`
 */
export function clockAfter(start: string, seconds: number): string {
  const [date, time] = dateTimeAfter(start, seconds).split(' ') as [string, string]
  const days = Math.round((Date.parse(`${date}Z`) - Date.parse(`${start.slice(0, 10)}Z`)) / 86_400_000)
  return days === 0 ? time : `${time} +${days} d`
}
