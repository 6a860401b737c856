/**
 * The card as a form holds it: text by field, a list as lines, an empty field as nothing. What was
 * typed is kept as it was typed till it is saved; then spaces at the ends go, and empty lines.
 */
import { keyFor, SECTIONS, type Field, type Section } from './fields.ts';
import type { Part } from '../text/en/parts/part-words.ts';
import { isList, joinLines, splitLines, withoutPumpPrefix, type FlatCard } from './flat-card.ts';

/** What stands in each field, by its key. */
export type Typed = Readonly<Record<string, string>>;

export function typedOf(flat: Readonly<FlatCard>): Typed {
  return Object.fromEntries(
    Object.entries(flat).map(([key, text]) => [
      key,
      isList(withoutPumpPrefix(key)) ? splitLines(text).join('\n') : text,
    ]),
  );
}

export function flatOf(typed: Typed): FlatCard {
  const fields = Object.entries(typed).map(([key, text]) => [
    key,
    isList(withoutPumpPrefix(key)) ? asList(text) : text.trim(),
  ]);
  return Object.fromEntries(fields.filter(([, text]) => text !== ''));
}

function asList(text: string): string {
  const lines = text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  return lines.length === 0 ? '' : joinLines(lines);
}

export interface ShownField {
  field: Field;
  key: string;
}

export interface ShownSection {
  title: string;
  about?: string;
  /** What is said elsewhere of the things in it. */
  parts: readonly Part[];
  fields: ShownField[];
}

/**
 * The sections of a card with one pump or several; of the switch's fields those that can still be
 * filled.
 */
export function sectionsOf(opened: Readonly<FlatCard>, pumps: readonly string[]): ShownSection[] {
  return SECTIONS.flatMap((section) =>
    section.perPump && pumps.length > 1
      ? pumps.map((pump) => sectionFor(section, opened, pump))
      : [sectionFor(section, opened, pumps.length > 1 ? pumps[0] : undefined)],
  );
}

function sectionFor(section: Section, opened: Readonly<FlatCard>, pump: string | undefined): ShownSection {
  const { title, intro, parts = [], fields } = section;
  return {
    title: section.perPump && pump !== undefined ? `${title} ${pump.slice(1)}` : title,
    ...(intro !== undefined && { about: intro }),
    parts,
    fields: fields
      .filter(({ key }) => !isAlternative(key, opened))
      .map((field) => ({ field, key: keyFor(field, pump) })),
  };
}

/**
 * A switch is written by its name or by its two points: where one way was taken, the other is not
 * offered.
 */
function isAlternative(key: string, opened: Readonly<FlatCard>): boolean {
  const points = opened['switch.points'] !== undefined;
  const each = opened['switch.cutIn'] !== undefined || opened['switch.cutOut'] !== undefined;
  return key === 'switch.points' ? each : (key === 'switch.cutIn' || key === 'switch.cutOut') && points;
}

/** The pumps that a card has: `p1` alone where it names none. */
export function pumpsOf(flat: Readonly<FlatCard>): string[] {
  const named = Object.keys(flat).flatMap((key) => /^pumps\.(p\d+)\./.exec(key)?.[1] ?? []);
  const count = Math.max(1, ...named.map((pump) => Number(pump.slice(1))));
  return Array.from({ length: count }, (_, at) => `p${at + 1}`);
}

/**
 * The same with one pump more. A second pump is another kind of card: each pump then has a part of
 * its own.
 */
export function withPump(typed: Typed, pumps: readonly string[]): { typed: Typed; pumps: string[] } {
  const next = [...pumps, `p${pumps.length + 1}`];
  if (pumps.length > 1) return { typed, pumps: next };
  const moved = Object.entries(typed).map(([key, text]) => [
    key === 'control' || key.startsWith('pump.') ? `pumps.p1.${key}` : key,
    text,
  ]);
  return { typed: Object.fromEntries(moved), pumps: next };
}

/** What a closed section holds, in one line: what is written there. */
export function digestOf({ fields }: ShownSection, typed: Typed): string {
  const texts = fields.flatMap(({ key, field }) => {
    const text = typed[key]?.trim() ?? '';
    if (text === '') return [];
    return [field.choices && !field.multiple ? wordsOf(field, text) : text.replaceAll('\n', '; ')];
  });
  return texts.join(' · ');
}

/** A choice in words. */
export function wordsOf({ choices }: Field, value: string): string {
  return choices?.find(([one]) => one === value)?.[1] ?? value;
}

/** "Barn by the creek" as topics can carry it: "barn-by-the-creek". */
export function nameFor(words: string): string {
  return words
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 40);
}
