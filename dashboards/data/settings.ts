/**
 * What this browser remembers: units and the name under which alarms are acknowledged. Nothing else
 * is stored.
 */
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import type { DataSource } from './source.ts';

const UNITS_KEY = 'stillwell-units';
const NAME_KEY = 'stillwell-name';

/**
 * US units where the browser speaks US English or nothing is known: most private wells with a
 * pressure switch stand there.
 */
export function rememberedUnits(): UnitSystem {
  const stored = read(UNITS_KEY);
  if (stored === 'us' || stored === 'metric') return stored;
  return navigator.language === 'en-US' || navigator.language === 'en' ? 'us' : 'metric';
}

export function rememberUnits(units: UnitSystem): void {
  write(UNITS_KEY, units);
}

export function rememberedName(): string {
  return read(NAME_KEY) ?? '';
}

export function rememberName(name: string): void {
  write(NAME_KEY, name);
}

/**
 * A browser may refuse to remember (private mode): then nothing is remembered, and the pages work.
 */
function read(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

function write(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    // As above.
  }
}

export interface AppContextValue {
  source: DataSource;
  units: UnitSystem;
}

export const AppContext = createContext<AppContextValue | undefined>(undefined);

export function useAppContext(): AppContextValue {
  const found = useContext(AppContext);
  if (!found) throw new Error('Cannot show a part: it must stand inside the page');
  return found;
}
