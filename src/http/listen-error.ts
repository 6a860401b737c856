/** Why a port could not be opened, in one line that says what to do. */

/** `what`: "the pages". `host` as it stands in an address. */
export function listenErrorText(
  what: string,
  { error, host, port }: { error: NodeJS.ErrnoException; host: string; port: number },
): string {
  const cannot = `Cannot open ${what} on ${host}:${port}`;
  switch (error.code ?? '') {
    case 'EADDRINUSE':
      return `${cannot}: another program has this port: end it, or choose another port in the settings`;
    case 'EACCES':
      return `${cannot}: this user may not open ports under 1024: choose a higher one`;
    case 'EADDRNOTAVAIL':
      return `${cannot}: this computer has no such address: give one of its own`;
    default:
      return `${cannot}: ${error.message}`;
  }
}
