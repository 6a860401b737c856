/**
 * The pumps of a card: one under `pump` and `control`, or several under `pumps` ("p1", "p2" … without a hole, for a pump's place is
 * its channels' prefix). `control` is a pressure switch where the card does not say.
 */
import type { Control, PumpCard } from './card.ts';
import { MAX_PUMPS } from './channels.ts';
import {
  LONGEST_TEXT,
  MOTOR_AMPS,
  MOTOR_POWER,
  MOTOR_VOLTS,
  PROTECTOR_RESTART,
  PUMP_FLOW,
  SET_DEPTH,
} from './limits.ts';
import { choiceAt, dateAt, lookInto, needed, note, quantityAt, textAt, valueOf } from './look.ts';
import type { Look } from './look.ts';
import { PUMP_DESCRIBED_KEYS } from './read-description.ts';

const CONTROLS = [
  'pressure-switch',
  'variable-speed',
  'constant-pressure-valve',
  'float',
  'timer',
] as const satisfies readonly Control[];

const PUMP_KEYS = [
  'kind',
  'motor',
  'volts',
  'phase',
  'supplyPhase',
  'wires',
  'maxAmps',
  'rated',
  'setDepth',
  'installed',
  'clamp',
  'alsoOnClamp',
  'protector',
  ...PUMP_DESCRIBED_KEYS,
] as const;

/** At least one pump; problems are noted in `card`. `looks` is filled with each pump's object, for what else is said there. */
export function readPumps(card: Look, looks: Map<string, Look>): PumpCard[] {
  const several = lookInto(card, 'pumps', undefined);
  if (!several) return [readPump(card, 'p1', looks)];
  for (const key of ['control', 'pump']) {
    if (valueOf(card, key) !== undefined)
      note(card, key, 'must not stand beside pumps: it belongs into each of them');
  }
  const ids = Object.keys(several.holds).sort((a, b) => Number(a.slice(1)) - Number(b.slice(1)));
  if (ids.length === 0) note(card, 'pumps', 'must hold at least one pump');
  ids.forEach((id, at) => {
    if (id !== `p${at + 1}` || at >= MAX_PUMPS) {
      note(several, id, `must be called p1, p2 … p${MAX_PUMPS} without a hole`, ids.join(', '));
    }
  });
  return ids.map((id) => {
    const one = lookInto(several, id, ['control', 'pump']);
    return one ? readPump(one, id, looks) : { id, control: 'pressure-switch' };
  });
}

/** `holder` is what has `control` and `pump`: the card itself or an entry of `pumps`. */
function readPump(holder: Look, id: string, looks: Map<string, Look>): PumpCard {
  const pump: PumpCard = { id, control: choiceAt(holder, 'control', CONTROLS) ?? 'pressure-switch' };
  const look = lookInto(holder, 'pump', PUMP_KEYS);
  if (look) looks.set(id, look);
  return look ? { ...pump, ...readMotor(look), ...readPlace(look) } : pump;
}

function readMotor(look: Look): Partial<PumpCard> {
  const motorW = quantityAt(look, 'motor', 'power', MOTOR_POWER);
  const volts = quantityAt(look, 'volts', 'voltage', MOTOR_VOLTS);
  const phase = choiceAt(look, 'phase', [1, 3] as const);
  const supplyPhase = choiceAt(look, 'supplyPhase', [1, 3] as const);
  const wires = choiceAt(look, 'wires', [2, 3] as const);
  const maxAmps = quantityAt(look, 'maxAmps', 'current', MOTOR_AMPS);
  const protector = lookInto(look, 'protector', ['restart']);
  const protectorRestartS =
    protector &&
    needed(protector, 'restart', quantityAt(protector, 'restart', 'duration', PROTECTOR_RESTART));
  return {
    ...(motorW !== undefined && { motorW }),
    ...(volts !== undefined && { volts }),
    ...(phase !== undefined && { phase }),
    ...(supplyPhase !== undefined && { supplyPhase }),
    ...(wires !== undefined && { wires }),
    ...(maxAmps !== undefined && { maxAmps }),
    ...(protectorRestartS !== undefined && { protectorRestartS }),
  };
}

function readPlace(look: Look): Partial<PumpCard> {
  const kind = choiceAt(look, 'kind', ['submersible', 'jet', 'booster'] as const);
  const ratedLPerS = quantityAt(look, 'rated', 'flow', PUMP_FLOW);
  const setDepthM = quantityAt(look, 'setDepth', 'length', SET_DEPTH);
  const installed = dateAt(look, 'installed');
  const clamp = choiceAt(look, 'clamp', ['line', 'yellow', 'black', 'red'] as const);
  const alsoOnClamp = textAt(look, 'alsoOnClamp', LONGEST_TEXT);
  return {
    ...(kind && { kind }),
    ...(ratedLPerS !== undefined && { ratedLPerS }),
    ...(setDepthM !== undefined && { setDepthM }),
    ...(installed !== undefined && { installed }),
    ...(clamp && { clamp }),
    ...(alsoOnClamp !== undefined && { alsoOnClamp }),
  };
}
