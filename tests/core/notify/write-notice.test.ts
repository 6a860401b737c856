import { describe, expect, test } from 'vitest';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { ALARM_KINDS, CAUSES } from '../../../shared/text/en/alarms/kinds.ts';
import { writeNotice } from '../../../src/core/notify/write-notice.ts';
import { NOW_MS, raised, siteSilent } from './support.ts';

const HOW = { nowMs: NOW_MS, units: 'us' as const, timeZone: 'America/Denver' };

function write(event = raised(), last = event): { subject: string; text: string } {
  return writeNotice({ event: { ...last, ...event }, ...HOW });
}

describe('writeNotice', () => {
  test('a raised alarm, whole', () => {
    const { subject, text } = write();
    expect(`${subject}\n\n${text}`).toMatchInlineSnapshot(`
      "north-paddock: pump starts too often (act this week)

      north-paddock: pump starts too often. Act this week.

      14 starts in 18 min; normal is 1.
      Since Thu 2 April, 11:02 am.

      Starts come too close together, or runs are too short. Every start strains the motor, the switch and the check valve. Most often the tank has lost its air.

      Likely causes
      - Tank has lost air
      - Leak

      First safe step
      Use as little water as you can. If the pump starts every few seconds, switch it off at its breaker between uses. Knock on the tank from top to bottom: if it sounds full all the way up, it has lost its air. Have your pump contractor check the tank and its precharge this week.

      Figures
      - Starts: 14
      - Within: 18 min
      - Normal: 1

      When this alarm can be wrong
      A very small tank with a use of about half the pump’s flow starts this often without a fault. A tap left running beside a tank that has only lost a little air does too. Right after work on the tank its usual fills are not known yet.

      Cautions
      - Leave a panel, starter or disconnect alone that is wet, hot, buzzing or smells burnt, and never stand in water to reach one. Keep everybody away and call the power company. For smoke or fire call 911.
      - Pressure switches, control boxes, well caps and tanks are opened by licensed people alone. Before they do: shut the pump off, switch its breaker off and lock it off. Let the water pressure down to zero and the capacitors discharge, and prove with a meter that the circuit is dead. Keep clear until then: an automatic pump can start at any second.
      - Stay out of well pits. People have died in them of bad air and of electric shock. If the tank, its gauge, a valve or the switch is in a pit, leave that step out and call people who have the gear for it. If somebody lies in a pit, call 911 and stay out.
      - A pressure tank holds compressed air. Release the water pressure before anything is loosened, stay under the pressure rating on the tank, and never cut or weld a tank.
      - The air charge is read with the pump switched off and locked off, a tap open and the tank drained until the gauge reads zero. Read with water pressure on, it shows the system pressure and not the precharge.
      - Stillwell only watches. It is no safety device, and it does not replace overloads, fuses, a relief valve or a person. Zero amps on a screen is no proof that a circuit is dead.
      - Local code, the instructions of the equipment and licensed contractors rule over anything said here.
      "
    `);
  });

  test('whom to call, the breaker and the valve stand in the first three lines', () => {
    const names = {
      firm: 'Bluestem Well Service, 555-0142',
      breaker: '14/16',
      panel: 'barn, north wall',
      shutOff: 'under the stairs',
    };
    const event = raised({ alarm: 'dry-run', priority: 'now' });
    const lines = writeNotice({ event, ...HOW, names }).text.split('\n');
    expect(lines.slice(0, 3)).toEqual([
      'north-paddock: pump runs but lifts no water. Act now: minutes matter.',
      'Call: Bluestem Well Service, 555-0142.',
      'Switch off: breaker 14/16, panel: barn, north wall. Shut-off valve: under the stairs.',
    ]);
    expect(lines.join(' ')).toMatch(
      /Switch the pump off at breaker 14\/16 now.*Call Bluestem Well Service, 555-0142\./,
    );
    const without = writeNotice({ event, ...HOW }).text;
    expect(without).toMatch(/Switch the pump off at its breaker now.*Call your pump contractor\./);
    expect(without).not.toContain('{');
  });

  test.each([
    ['now', 'dry-run', '(act now: minutes matter)'],
    ['now', 'store-low', '(act today)'],
    ['soon', 'dry-run', '(act this week)'],
    ['note', 'dry-run', '(worth a look)'],
  ] as const)('priority %s of %s says how soon: %s', (priority, alarm, words) => {
    expect(write(raised({ priority, alarm })).subject).toContain(words);
  });

  test('a long run past cut-out: minutes matter, the breaker first, and the cautions of a tank under pressure', () => {
    const evidence = { ranS: 480, kpa: 510, cutOutKpa: 414, switch: 'should be open' };
    const past = raised({ alarm: 'long-run', priority: 'now', evidence, causes: [] });
    const { subject, text } = write(past);
    expect(subject).toContain('(act now: minutes matter)');
    expect(text).toMatch(/First safe step\nSwitch the pump off at its breaker now/);
    expect(text).toContain('- Switch: should be open');
    for (const caution of ['relief-valve', 'tank-pressure', 'scalding'] as const)
      expect(text).toContain(CAUTIONS[caution]);
    const inBand = write({ ...past, evidence: { ranS: 50_000 } });
    expect(inBand.subject).toContain('(act today)');
    expect(inBand.text).toMatch(/First safe step\nRead the gauge from the door.*Else look for running water/);
  });

  test('the second pump is named, a site stands for its wells', () => {
    expect(write(raised({ pump: 'p2' })).subject).toMatch(/^north-paddock, pump 2: /);
    expect(write(siteSilent()).subject).toMatch(/^home-farm: /);
  });

  test('the end says since when, what it was, and that its cause may stand', () => {
    const cleared = {
      event: 'alarm',
      well: 'north-paddock',
      alarm: 'short-cycling',
      state: 'cleared',
      at: '2026-04-02T21:02:00.000Z',
    } as const;
    const { subject, text } = write(cleared, raised());
    expect(subject).toMatch(/^north-paddock: .* \(cleared\)$/);
    expect(text).toContain('Cleared Thu 2 April, 3:02 pm.');
    expect(text).toContain('It reported: 14 starts in 18 min; normal is 1.');
    expect(text).toContain('The cause may still be there.');
  });

  test('a withdrawn alarm says that it was not so', () => {
    const withdrawn = {
      event: 'alarm',
      well: 'north-paddock',
      alarm: 'short-cycling',
      state: 'withdrawn',
      at: '2026-04-02T21:02:00.000Z',
    } as const;
    const { subject, text } = write(withdrawn, raised());
    expect(subject).toMatch(/\(withdrawn\)$/);
    expect(text).toContain('Withdrawn Thu 2 April, 3:02 pm: late readings show that the alarm was wrong.');
  });

  test.each(ALARM_KINDS)(
    '%s: one line of subject, a first step, and the cautions that always stand',
    (alarm) => {
      const { subject, text } = write(
        raised({ alarm, causes: CAUSES.slice(0, 2).map((cause) => ({ cause, weight: 0.5 })) }),
      );
      expect(subject).toMatch(/^north-paddock: \S.{3,120} \(act this week\)$/);
      expect(text).toMatch(/First safe step\n\S/);
      expect(text).toContain('It is no safety device');
      expect(text).toContain('Local code, the instructions of the equipment and licensed contractors rule');
      expect(text).not.toMatch(/undefined|NaN|null|\n\n\n/);
    },
  );

  test('causes that look alike come with what tells them apart', () => {
    const causes = [
      { cause: 'tank-air-lost', weight: 0.5 },
      { cause: 'bladder-burst', weight: 0.5 },
    ] as const;
    expect(write(raised({ causes: [...causes] })).text).toMatch(/To tell them apart: /);
    expect(write(raised({ causes: [causes[0]] })).text).not.toMatch(/To tell them apart: /);
  });
});
