/** The page that is shown, following the address. */
import { useEffect, useState } from 'preact/hooks';
import { parsePage } from './page-url.ts';
import type { Page } from './page-url.ts';

export function usePage(): Page {
  const [hash, setHash] = useState(location.hash);
  useEffect(() => {
    const change = (): void => setHash(location.hash);
    window.addEventListener('hashchange', change);
    return () => window.removeEventListener('hashchange', change);
  }, []);
  return parsePage(hash);
}
