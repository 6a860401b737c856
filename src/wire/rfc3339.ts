/**
 * Times as recordings write them: RFC 3339, and the forms near it that `mosquitto_sub -F %J` prints in its several versions:
 * an offset without colon, and an offset behind a Z (there the offset counts and the Z does not).
 */
const TIME =
  /^(\d{4})-(\d\d)-(\d\d)[Tt ](\d\d):(\d\d):(\d\d)(?:[.,](\d{1,9}))?(?:[Zz]?([+-])(\d\d):?(\d\d)|[Zz])$/;

/** Unix ms, cut to whole ones, or undefined where the text is no time with a zone. */
export function parseTime(text: string): number | undefined {
  const parts = TIME.exec(text);
  if (parts === null) return undefined;
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = parts.slice(1, 7).map(Number);
  const [, , , , , , , fraction, sign, offsetHours, offsetMinutes] = parts;
  if (!isDay(year, month, day) || hour > 23 || minute > 59 || second > 60) return undefined;
  const ms = fraction === undefined ? 0 : Number(fraction.slice(0, 3).padEnd(3, '0'));
  const offsetMin = sign === undefined ? 0 : Number(offsetHours) * 60 + Number(offsetMinutes);
  const localMs = Date.UTC(year, month - 1, day, hour, minute, second, ms);
  return localMs - (sign === '-' ? -offsetMin : offsetMin) * 60_000;
}

function isDay(year: number, month: number, day: number): boolean {
  return month >= 1 && month <= 12 && day >= 1 && day <= new Date(Date.UTC(year, month, 0)).getUTCDate();
}
