/**
 * Lines of a label out of facts that may be missing. What is written is the figure and what was
 * measured stands beside it; what was only measured is the figure and says so; what nobody knows is
 * a blank with its name, so that somebody at the place can fill it in.
 */
import type { LabelLine } from '../../../shared/api/labels.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { Card, PumpCard } from '../../core/domain/card.ts';
import type { MeasuredValue, MeasuredFacts } from '../readings/newest-readings.ts';
import { texts } from './texts.ts';

/** All that a label is made of. */
export interface LabelFacts {
  card: Card;
  pump: PumpCard;
  measured: MeasuredFacts;
  units: UnitSystem;
}

interface LabelFigure {
  written?: number | undefined;
  measured?: MeasuredValue | undefined;
  format: (si: number) => string;
  prominent?: true;
}

export function figureLine(name: string, { card }: LabelFacts, figure: LabelFigure): LabelLine {
  const { written, measured, format, prominent } = figure;
  const on = measured && localDate(measured.atMs, card.timeZone);
  const si = written ?? measured?.si;
  const both = written !== undefined && measured !== undefined;
  return {
    name,
    ...(si !== undefined && { value: format(si) }),
    ...(on !== undefined && {
      detail: both ? texts().measured(format(measured.si), on) : texts().measuredOn(on),
    }),
    ...(prominent && { prominent }),
  };
}

/** A line of words, or its blank. */
export function textLine(name: string, value: string | undefined): LabelLine {
  return { name, ...(value !== undefined && { value }) };
}

/**
 * A line that is left out where nothing is known: most have no such thing, and a blank would ask
 * for it.
 */
export function optionalLine(name: string, value: string | undefined): LabelLine[] {
  return value === undefined ? [] : [{ name, value }];
}

/** What is known of several things in one line, "main panel, 20 A"; undefined where nothing is. */
export function joinKnown(parts: readonly (string | undefined)[], between = ', '): string | undefined {
  const known = parts.filter((part) => part !== undefined);
  return known.length === 0 ? undefined : known.join(between);
}

/** Terminals in one line, each kept whole when the line is broken. */
export function wiresLine(name: string, wires: readonly string[] | undefined): LabelLine {
  return textLine(
    name,
    wires &&
      joinKnown(
        wires.map((wire) => wire.replaceAll(' ', '\u00a0')),
        ' · ',
      ),
  );
}
