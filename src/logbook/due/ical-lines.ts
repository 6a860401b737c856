/**
 * Lines of an iCalendar object (RFC 5545): CRLF ends each (3.1), a line longer than 75 octets is
 * folded between characters and never within one (3.1), and text has backslash, semicolon, comma
 * and line end escaped (3.3.11). Other control characters are not allowed in text at all, so they
 * are left out.
 */
const LINE_OCTETS = 75;

/** `NAME:value`, folded, with its line end. `name` may carry parameters. */
export function icalLine(name: string, value: string): string {
  const lines: string[] = [];
  let line = '';
  let octets = 0;
  for (const character of `${name}:${value}`) {
    const size = utf8Octets(character);
    if (octets + size > LINE_OCTETS) {
      lines.push(line);
      // The space that marks a continuation is one octet of it.
      line = ' ';
      octets = 1;
    }
    line += character;
    octets += size;
  }
  return [...lines, line].map((one) => `${one}\r\n`).join('');
}

/** A text value, escaped. */
export function icalText(text: string): string {
  return (
    text
      .replaceAll(/\r\n?/g, '\n')
      // oxlint-disable-next-line no-control-regex
      .replaceAll(/[\u0000-\u0008\u000b-\u001f\u007f]/g, '')
      .replaceAll('\\', '\\\\')
      .replaceAll(';', '\\;')
      .replaceAll(',', '\\,')
      .replaceAll('\n', '\\n')
  );
}

/** A date as DATE, `20260302` (3.3.4). */
export function icalDate(date: string): string {
  return date.replaceAll('-', '');
}

/** A moment as UTC DATE-TIME, `20260302T101500Z` (3.3.5). */
export function icalDateTime(atMs: number): string {
  return `${new Date(atMs).toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}Z`;
}

/** UTF-8 (RFC 3629). */
function utf8Octets(character: string): number {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x1_0000 ? 3 : 4;
}
