/**
 * The labels that hang at a well: for tank, switch, control box, breaker panel and well head, each
 * with the facts that belong there. A pure function of the card and of what was measured; every
 * fact may be missing. With several pumps, what belongs to a pump has a label for each.
 */
import type { Label, LabelLine } from '../../../shared/api/labels.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import {
  LABEL_CAUTIONS,
  LABEL_KINDS,
  LABEL_TITLES,
  type LabelKind,
} from '../../../shared/text/en/label-words.ts';
import type { Card, PumpCard } from '../../core/domain/card.ts';
import type { Location } from '../../core/domain/description.ts';
import { controlBoxLines, controlBoxTitle, panelLines } from './label-electric.ts';
import { wellHeadLines } from './label-well-head.ts';
import type { LabelFacts } from './label-lines.ts';
import { switchLines } from './label-switch.ts';
import { tankLines } from './label-tank.ts';
import type { MeasuredFacts } from '../readings/newest-readings.ts';
import { texts } from './texts.ts';

export interface LabelsInput {
  card: Card;
  /** By the pump's name. */
  measured: (pump: string) => MeasuredFacts;
  /** The local date on which they are made. */
  madeOn: string;
}

const LINES: Record<LabelKind, (facts: LabelFacts) => LabelLine[]> = {
  tank: tankLines,
  'pressure-switch': switchLines,
  'control-box': controlBoxLines,
  panel: panelLines,
  'well-head': wellHeadLines,
};

const LOCATION_FIELDS: Record<LabelKind, Location> = {
  tank: 'tank',
  'pressure-switch': 'switch',
  'control-box': 'controlBox',
  panel: 'panel',
  'well-head': 'wellHead',
};

/** Of these each pump has its own. */
const PUMP_LABELS: readonly LabelKind[] = ['control-box', 'panel'];

export function buildLabels(from: LabelsInput, units: UnitSystem): Label[] {
  return LABEL_KINDS.flatMap((kind) =>
    pumpsForLabel(kind, from.card).map((pump) =>
      buildLabel(kind, { card: from.card, pump, measured: from.measured(pump.id), units }, from.madeOn),
    ),
  );
}

/**
 * A label of the whole well speaks of the pump that it is about: the one on the switch, or the one
 * in the hole.
 */
function pumpsForLabel(kind: LabelKind, { pumps, tank }: Card): PumpCard[] {
  if (PUMP_LABELS.includes(kind)) return pumps;
  const bySwitch = pumps.find(
    ({ control }) => control === 'pressure-switch' || control === 'constant-pressure-valve',
  );
  const byPressure = bySwitch ?? pumps.find(({ control }) => control === 'variable-speed');
  const one = {
    tank: byPressure ?? (tank ? pumps[0] : undefined),
    'pressure-switch': bySwitch,
    'well-head': pumps.find(({ kind: is }) => is === undefined || is === 'submersible') ?? pumps[0],
  }[kind as 'tank' | 'pressure-switch' | 'well-head'];
  return one ? [one] : [];
}

function buildLabel(kind: LabelKind, facts: LabelFacts, made: string): Label {
  const { card, pump } = facts;
  const several = card.pumps.length > 1 && PUMP_LABELS.includes(kind);
  const title = `${titleOf(kind, facts)}${several ? texts().ofPump(pump.id.slice(1)) : ''}`;
  const place = card.description?.where[LOCATION_FIELDS[kind]];
  const lines = LINES[kind](facts);
  return {
    id: several ? `${kind} ${pump.id}` : kind,
    kind,
    title,
    well: card.well,
    ...(place !== undefined && { location: place }),
    lines,
    caution: LABEL_CAUTIONS[kind],
    plainText: plainTextLines(title, card, lines, made),
    madeOn: made,
  };
}

function titleOf(kind: LabelKind, { card, pump }: LabelFacts): string {
  return kind === 'control-box'
    ? controlBoxTitle(pump, card.description?.pumps[pump.id]?.controlBox)
    : LABEL_TITLES[kind];
}

/**
 * One fact a line, as a telephone shows them. What is blank is not said; where all is blank there
 * is nothing to say.
 */
function plainTextLines(title: string, { well }: Card, lines: readonly LabelLine[], made: string): string[] {
  const facts = lines.flatMap(({ name, value, detail }) =>
    value === undefined ? [] : [`${name}: ${value}${detail === undefined ? '' : `, ${detail}`}`],
  );
  return (facts.length === 0 ? [] : [`${well}: ${title}, ${made}`, ...facts]).map((line) =>
    line.replaceAll('’', "'").replaceAll(' · ', '; ').replaceAll('\u00a0', ' '),
  );
}
