/** Why a port could not be opened, in one line that says what to do. */
import { texts } from './texts.ts';

/** `what`: "the pages". `host` as it stands in an address. */
export function listenErrorText(
  what: string,
  { error, host, port }: { error: NodeJS.ErrnoException; host: string; port: number },
): string {
  return texts().cannotOpen({ what, address: `${host}:${port}`, reason: reasonText(error) });
}

function reasonText({ code, message }: NodeJS.ErrnoException): string {
  switch (code ?? '') {
    case 'EADDRINUSE':
      return texts().portInUse;
    case 'EACCES':
      return texts().portNotAllowed;
    case 'EADDRNOTAVAIL':
      return texts().noSuchAddress;
    default:
      return message;
  }
}
