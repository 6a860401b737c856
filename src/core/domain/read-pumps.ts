/**
 * The pumps of a card: one under `pump` and `control`, or several under `pumps` ("p1", "p2" … without a hole, for a pump's place is
 * its channels' prefix). `control` is a pressure switch where the card does not say.
 */
import type { Control, PumpCard } from './card.ts';
import { MAX_PUMPS } from './channels.ts';
import {
  MAX_TEXT_CHARACTERS,
  MOTOR_AMPS,
  MOTOR_POWER,
  MOTOR_VOLTS,
  PROTECTOR_RESTART,
  PUMP_FLOW,
  SET_DEPTH,
} from './limits.ts';
import {
  choiceAt,
  dateAt,
  childContext,
  required,
  addIssue,
  quantityAt,
  textAt,
  fieldValue,
} from './parse-context.ts';
import type { ParseContext } from './parse-context.ts';
import { PUMP_DESCRIPTION_KEYS } from './read-description.ts';

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
  ...PUMP_DESCRIPTION_KEYS,
] as const;

/** At least one pump; problems are noted in `card`. `contexts` is filled with each pump's object, for what else is said there. */
export function readPumps(card: ParseContext, contexts: Map<string, ParseContext>): PumpCard[] {
  const several = childContext(card, 'pumps', undefined);
  if (!several) return [readPump(card, 'p1', contexts)];
  for (const key of ['control', 'pump']) {
    if (fieldValue(card, key) !== undefined)
      addIssue(card, key, 'must not stand beside pumps: it belongs into each of them');
  }
  const ids = Object.keys(several.fields).sort((a, b) => Number(a.slice(1)) - Number(b.slice(1)));
  if (ids.length === 0) addIssue(card, 'pumps', 'must hold at least one pump');
  ids.forEach((id, at) => {
    if (id !== `p${at + 1}` || at >= MAX_PUMPS) {
      addIssue(several, id, `must be called p1, p2 … p${MAX_PUMPS} without a hole`, ids.join(', '));
    }
  });
  return ids.map((id) => {
    const one = childContext(several, id, ['control', 'pump']);
    return one ? readPump(one, id, contexts) : { id, control: 'pressure-switch' };
  });
}

/** `holder` is what has `control` and `pump`: the card itself or an entry of `pumps`. */
function readPump(holder: ParseContext, id: string, contexts: Map<string, ParseContext>): PumpCard {
  const pump: PumpCard = { id, control: choiceAt(holder, 'control', CONTROLS) ?? 'pressure-switch' };
  const context = childContext(holder, 'pump', PUMP_KEYS);
  if (context) contexts.set(id, context);
  return context ? { ...pump, ...readMotor(context), ...readInstallation(context) } : pump;
}

function readMotor(context: ParseContext): Partial<PumpCard> {
  const motorW = quantityAt(context, 'motor', 'power', MOTOR_POWER);
  const volts = quantityAt(context, 'volts', 'voltage', MOTOR_VOLTS);
  const phase = choiceAt(context, 'phase', [1, 3] as const);
  const supplyPhase = choiceAt(context, 'supplyPhase', [1, 3] as const);
  const wires = choiceAt(context, 'wires', [2, 3] as const);
  const maxAmps = quantityAt(context, 'maxAmps', 'current', MOTOR_AMPS);
  const protector = childContext(context, 'protector', ['restart']);
  const protectorRestartS =
    protector &&
    required(protector, 'restart', quantityAt(protector, 'restart', 'duration', PROTECTOR_RESTART));
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

function readInstallation(context: ParseContext): Partial<PumpCard> {
  const kind = choiceAt(context, 'kind', ['submersible', 'jet', 'booster'] as const);
  const ratedLPerS = quantityAt(context, 'rated', 'flow', PUMP_FLOW);
  const setDepthM = quantityAt(context, 'setDepth', 'length', SET_DEPTH);
  const installed = dateAt(context, 'installed');
  const clamp = choiceAt(context, 'clamp', ['line', 'yellow', 'black', 'red'] as const);
  const alsoOnClamp = textAt(context, 'alsoOnClamp', MAX_TEXT_CHARACTERS);
  return {
    ...(kind && { kind }),
    ...(ratedLPerS !== undefined && { ratedLPerS }),
    ...(setDepthM !== undefined && { setDepthM }),
    ...(installed !== undefined && { installed }),
    ...(clamp && { clamp }),
    ...(alsoOnClamp !== undefined && { alsoOnClamp }),
  };
}
