/**
 * `stillwell alarms`: the alarms of a running server, active ones first, with what was measured.
 */
import type { AlarmAnswer } from '../../shared/api/alarms.ts';
import { alarmTitle } from '../../shared/text/en/alarm-title.ts';
import { EXIT, type CommandBuilder } from './command.ts';
import { jsonOption, serverOption } from './options.ts';
import { serverApi } from './server-api.ts';
import { utcMoment } from './utc-moment.ts';
import { texts } from './texts.ts';

export const alarmsCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(texts().listAlarmsActiveOnesFirst)
    .argument('[well]', texts().nameOfAWellDefault)
    .option('--active', texts().listActiveAlarmsOnly)
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfAlarms)
    .action(
      action(async (well, { active, json, server }) => {
        const api = serverApi(server);
        // The list of an unknown well would be empty, as that of a well without alarms.
        if (well !== undefined) await api.get('well', { well });
        const { alarms } = await api.get('alarms', {
          ...(well !== undefined && { well }),
          ...(active && { active: 'true' }),
        });
        const sorted = alarms.toSorted(
          (a, b) => Number(b.active) - Number(a.active) || b.raisedMs - a.raisedMs,
        );
        if (json) for (const alarm of sorted) io.out(JSON.stringify(alarm));
        else if (sorted.length === 0) io.out(active ? texts().noActiveAlarms : texts().noAlarms);
        else for (const alarm of sorted) io.out(alarmLine(alarm));
        return EXIT.ok;
      }),
    );
};

function alarmLine(alarm: AlarmAnswer): string {
  const { well, site, node, pump, raisedMs, priority, why } = alarm;
  const place = [well ?? site ?? node ?? '', pump === undefined ? '' : texts().pump(pump.slice(1))];
  return [
    utcMoment(raisedMs),
    place.filter((part) => part !== '').join(', '),
    priority.padEnd(4),
    stateText(alarm).padEnd(12),
    `${alarmTitle(alarm.alarm)}: ${why}`,
  ].join('  ');
}

function stateText({ active, clearedMs, withdrawnMs, acknowledgedMs, shelvedUntilMs }: AlarmAnswer): string {
  const words = texts().alarmStates;
  if (!active && withdrawnMs !== undefined) return words.withdrawn;
  if (!active) return clearedMs === undefined ? words.ended : words.cleared;
  if (shelvedUntilMs !== undefined) return words.shelved;
  return acknowledgedMs === undefined ? words.active : words.acknowledged;
}
