/**
 * The settings of one server, checked and complete: every default is filled in. How they are
 * written and checked: ./schema.ts; what each key means to people: ./help.ts. Secrets are not in
 * here, only where they are kept (./secrets.ts).
 */
import type { Priority } from '../../shared/text/en/alarms/kinds.ts';
import type { RecipientChannels, SharedSettings } from '../channels/channels.ts';
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';

/** The built-in broker, or one that is there already. */
export type BrokerSettings = BuiltInBrokerSettings | ExternalBrokerSettings;

interface BuiltInBrokerSettings {
  kind: 'built-in';
  host: string;
  port: number;
}

interface ExternalBrokerSettings {
  kind: 'external';
  /** mqtt:// mqtts:// ws:// wss://, without user and password. */
  url: string;
  username?: string;
  passwordFile?: string;
  caFile?: string;
  /** Both or neither: the client certificate and its key. */
  certFile?: string;
  keyFile?: string;
  clientId: string;
  /** MQTT 5, or 4 for MQTT 3.1.1. */
  protocolVersion: 4 | 5;
}

interface WebSettings {
  host: string;
  port: number;
}

interface CalendarSettings {
  /**
   * Absent: where the built-in broker listens. On a loopback address it stays closed: no phone
   * could reach it.
   */
  host?: string;
  port: number;
}

interface RetentionSettings {
  /** Raw readings. */
  readingsDays: number;
  /** Cycles, days, baselines, ended alarms and sent notices. */
  cyclesDays: number;
  /** Refused messages kept for a look. */
  refusedDays: number;
}

/**
 * Somebody or something that is told, by one channel at least (src/channels); each is told for
 * itself.
 */
export interface RecipientSettings extends RecipientChannels {
  name: string;
  priorities: Priority[];
  /** Absent: all wells. */
  wells?: string[];
}

export interface Settings extends SharedSettings {
  dataDir: string;
  /** First topic level(s), without a slash at either end. */
  root: string;
  broker: BrokerSettings;
  /** Listen and evaluate, never publish `kept` or `ask`. */
  observe: boolean;
  web: WebSettings;
  calendar: CalendarSettings;
  retention: RetentionSettings;
  /** For one whole well, shared out among its watches. */
  falseAlarmsPerYear: number;
  units: UnitSystem;
  notices: RecipientSettings[];
  /** Card files, and a folder whose *.json are all cards. */
  cards: string[];
  cardsDir?: string;
}

/**
 * Settings that can't be used: one line with the key, the rule and the value. The caller ends with
 * exit code 2.
 */
export class SettingsError extends Error {
  override name = 'SettingsError';
}
