/**
 * What one way of sending notices brings along: what the settings hold for it, the secret it needs,
 * its help, and its sender. All of it is in the channel's own folder; the settings and the outbox
 * ask the table (./channels.ts).
 */
import type { z } from 'zod';
import type { SettingHelp, SettingsProblem } from '../settings-shapes.ts';
import type { Send } from './sender.ts';

export interface Channel<Own = object, Shared = object> {
  /** What a recipient's settings hold under the channel's name. */
  shape: z.ZodType<Own>;
  /** Keys are relative to that place; the first one is '', the place itself. */
  help: readonly SettingHelp[];
  /** A part of the settings that serves all recipients of this channel. */
  shared?: SharedPart<Shared>;
  // Methods, so that a table of channels can hold any settings: each is given its own.
  /** What is right alone and wrong beside the other settings; paths are relative. */
  problems?(own: Own, others: OtherSettings): SettingsProblem[];
  secret?(own: Own): SecretSource;
  /** Where one recipient is reached, if at several addresses: each gets a notice of its own. */
  addresses?(own: Own): readonly string[];
  /** The channel within a sentence, with the address if there is one. */
  words(address: string): string;
  /** Loads what sending needs only now: most commands read settings and send nothing. */
  open(context: ChannelContext<Shared>): Promise<OpenChannel<Own>>;
}

interface SharedPart<Shared> {
  key: string;
  shape: z.ZodType<Shared>;
  help: readonly SettingHelp[];
  problems?(shared: Shared): SettingsProblem[];
  secret?(shared: Shared): SecretSource;
  /** The environment variable that holds the secret, in place of a file. */
  secretVariable?: string;
}

export interface OtherSettings {
  /** First part of every topic of nodes. */
  root: string;
  /** Is the shared part of this key in the settings? */
  hasShared: (key: string) => boolean;
}

/** A secret in a file or in a variable of the environment, and what is asked of it. */
export interface SecretSource {
  /** The setting that an error names. */
  key: string;
  path?: string | undefined;
  variable?: string | undefined;
  required?: true;
  isValid?: (secret: string) => boolean;
  rule?: string;
}

/** Call it where the secret is used, and nowhere else. */
export type Secret = () => string;

export interface ChannelContext<Shared> {
  shared?: Shared;
  /** Of the shared part. */
  secret?: Secret;
  publish?: PublishNotice;
}

/** The broker's own `publish`, narrowed. */
export type PublishNotice = (
  topic: string,
  payload: string,
  options: { qos: 0 | 1; retain: boolean },
) => Promise<void>;

export interface OpenChannel<Own = object> {
  sender(own: Own, address: string, secret: Secret | undefined): Send;
  close?(): void;
}
