/** What the pages see of a well at this moment, taken from its engine's state. */
import type { Mode, PumpStatus, WellStatus } from '../../../shared/api/wells.ts';
import type { SymptomAnswer } from '../../../shared/api/alarms.ts';
import type { Card } from '../../core/domain/card.ts';
import { channelCode, codeOf } from '../../core/domain/channels.ts';
import { standing } from '../../core/alarms/lifecycle/alarms.ts';
import { longestLearnedRunS } from '../../core/alarms/pump/run-too-long.ts';
import { channelScenes } from '../../core/well/channels.ts';
import { lastEvaluations } from '../../core/alarms/lifecycle/last-evaluations.ts';
import { checksOf } from '../../core/well/checks.ts';
import type { WellState } from '../../core/well/engine.ts';
import type { LiveWell, SensorStatus } from '../../http/deps.ts';
import type { WellPipeline } from '../../core/fleet/well-pipeline.ts';

const PRESSURE = 3;

export function wellStatus(pipeline: WellPipeline): WellStatus {
  const { state, well } = pipeline;
  const { card } = state;
  const mode = modeOf(state);
  const pressure = state.channels.find((channel) => channel.code === PRESSURE);
  const heardMs = Math.max(-1, ...state.channels.map((channel) => channel.lastMs));
  const expected = state.expected[0];
  return {
    well,
    ...(card.site !== undefined && { site: card.site }),
    timeZone: card.timeZone,
    uses: card.uses,
    ...mode,
    ...(expected && { expected }),
    ...(heardMs >= 0 && { lastReadingMs: heardMs }),
    ...(pressure &&
      pressure.lastMs >= 0 &&
      pressure.faultsInRow === 0 && { pressureKpa: pressure.value / 1000 }),
    pumps: card.pumps.map((_, at) => pumpStatus(state, at)),
    symptoms: symptomsOf(state),
  };
}

/** What stands and is explained by another alarm, told or not. */
function symptomsOf(state: WellState): SymptomAnswer[] {
  return standing(state.alarms).flatMap(
    ({ alarm, pump, symptomOf, sinceMs, reason, figures, why, notified }) =>
      symptomOf === undefined
        ? []
        : [
            {
              alarm,
              ...(pump !== undefined && { pump }),
              symptomOf,
              sinceMs,
              reason,
              figures,
              why,
              notified,
            },
          ],
  );
}

function modeOf(state: WellState): { mode: Mode; modeUntilMs?: number } {
  for (const away of state.alarms.suspensions) {
    if (away.is !== 'laid-up') return { mode: away.is };
    return { mode: 'laid-up', ...(away.untilMs !== undefined && { modeUntilMs: away.untilMs }) };
  }
  return { mode: state.records.some((record) => record.baseline) ? 'watching' : 'learning' };
}

function pumpStatus(state: WellState, at: number): PumpStatus {
  const pump = state.pumps[at]!;
  const record = state.records[at]!;
  const current = state.channels.find((channel) => channel.code === codeOf('current', at));
  const sinceMs = pump.run ? pump.run.startedMs : pump.restFromMs;
  const known = pump.edges.phase !== 'unknown';
  const longestRunS = longestLearnedRunS({ ...record, habit: record.learning.habit });
  return {
    pump: state.card.pumps[at]!.id,
    ...(known && { running: pump.run !== undefined }),
    ...(sinceMs !== undefined && { sinceMs }),
    ...(longestRunS !== undefined && longestRunS > 0 && { longestRunS }),
    ...(current && current.lastMs >= 0 && current.faultsInRow === 0 && { amps: current.value }),
    startsToday: record.startsToday,
    ranTodayS: ranToday(state, at),
  };
}

/** Finished runs of the day, and the part of the running one that lies in it. */
function ranToday(state: WellState, at: number): number {
  const { day } = state;
  if (!day) return 0;
  const { run } = state.pumps[at]!;
  const openMs = run ? Math.max(0, state.nowMs - Math.max(run.startedMs, day.startMs)) : 0;
  return Math.round(((day.pumps[at]?.ranMs ?? 0) + openMs) / 1000);
}

export function liveWell(pipeline: WellPipeline): LiveWell {
  const { state } = pipeline;
  const sensors = channelScenes(state, state.nowMs).map(({ channel, node, lastMs, fault }): SensorStatus => {
    const correction = state.activeCorrections[channelCode(channel) ?? -1];
    return {
      channel,
      node,
      ...(lastMs !== undefined && { lastMs }),
      ...(fault && { fault }),
      ...(correction && { correction }),
    };
  });
  const known = (which: 'baseline' | 'previousBaseline'): LiveWell['normals'] =>
    state.records.flatMap((record, at) => {
      const baseline = record[which];
      return baseline ? [{ pump: state.card.pumps[at]!.id, baseline }] : [];
    });
  return {
    status: wellStatus(pipeline),
    card: newestCard(pipeline),
    sensors,
    checks: checksOf(state),
    evaluations: lastEvaluations(
      state.alarms,
      state.card.pumps.map(({ id }) => id),
    ),
    normals: known('baseline'),
    previousNormals: known('previousBaseline'),
  };
}

/**
 * The card as it was written last: a well that waits for its node takes it in up to a minute later,
 * and whoever just wrote it looks at once. A card with other pumps is waited for, since what was
 * measured goes by them.
 */
function newestCard({ state, pendingInputs }: WellPipeline): Card {
  const written = pendingInputs.findLast((input) => 'act' in input && input.act.kind === 'card-changed');
  if (!written || !('act' in written) || written.act.kind !== 'card-changed') return state.card;
  const idsOf = ({ pumps }: Card): string => pumps.map(({ id }) => id).join(' ');
  return idsOf(written.act.card) === idsOf(state.card) ? written.act.card : state.card;
}
