/** Odd cards: read all the same, and asked about. */
import { describe, expect, test } from 'vitest';
import { cardQuestions } from '../../../src/core/domain/questions.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';

const PLAIN = {
  well: 'a',
  pump: { motor: '1 hp', volts: '230 V', phase: 1, wires: 3, maxAmps: '9.8 A' },
  switch: { cutIn: '40 psi', cutOut: '60 psi' },
  tank: { volume: '44 gal', precharge: '38 psi' },
  relief: '75 psi',
};

function keysAsked(extra: object): string[] {
  const read = readCard({ ...PLAIN, ...extra });
  if ('problem' in read) throw new Error(read.problem);
  return cardQuestions(read.card, 'us', '2026-03-12').map(({ key }) => key);
}

const WIRED = { motor: '1 hp', volts: '230 V', phase: 1, maxAmps: '9.8 A' };

describe('questionsOfCard', () => {
  test.each<[string, object, string[]]>([
    ['a plain card', {}, []],
    ['precharge over cut-in', { tank: { precharge: '45 psi' } }, ['tank.precharge']],
    ['precharge at cut-in', { tank: { precharge: '40 psi' } }, []],
    ['precharge 10 psi under cut-in', { tank: { precharge: '30 psi' } }, []],
    ['precharge far under cut-in', { tank: { precharge: '15 psi' } }, ['tank.precharge']],
    ['precharge of a plain tank', { tank: { kind: 'plain', precharge: '38 psi' } }, ['tank.precharge']],
    ['relief under cut-out', { relief: '55 psi' }, ['relief']],
    ['relief close over cut-out', { relief: '62 psi' }, ['relief']],
    ['a narrow differential', { switch: { cutIn: '40 psi', cutOut: '45 psi' } }, ['switch.cutOut']],
    ['a differential of 10 psi', { switch: { cutIn: '40 psi', cutOut: '50 psi' } }, []],
    ['a wide differential', { switch: { cutIn: '30 psi', cutOut: '65 psi' }, tank: {} }, ['switch.cutOut']],
    ['half the amps', { pump: { ...PLAIN.pump, maxAmps: '4.9 A' } }, ['pump.maxAmps']],
    ['twice the amps', { pump: { ...PLAIN.pump, maxAmps: '19.6 A' } }, ['pump.maxAmps']],
    [
      'amps of a motor that no table has',
      { pump: { motor: '25 hp', volts: '48 V', phase: 1, maxAmps: '1 A' } },
      [],
    ],
    ['two wires and three phases', { pump: { phase: 3, wires: 2 } }, ['pump.wires']],
    ['a lead that two wires have not', { pump: { wires: 2, clamp: 'yellow' } }, ['pump.clamp']],
    ['three phases from one', { pump: { phase: 3, supplyPhase: 1 } }, ['pump.supplyPhase']],
    [
      'a drive with a single-phase motor on three phases',
      { control: 'variable-speed', pump: { phase: 1, supplyPhase: 3 } },
      ['pump.phase'],
    ],
    ['a float with a pressure switch', { control: 'float' }, ['control']],
    [
      'a wire that loses less than 5 % (250 ft of 12 AWG at 9.8 A: 7.8 V)',
      { pump: { ...WIRED, wire: { dropSize: '12 AWG', dropLength: '250 ft' } } },
      [],
    ],
    [
      'a wire that loses more (450 ft: 14 V of 230)',
      { pump: { ...WIRED, wire: { dropSize: '12 AWG', dropLength: '450 ft' } } },
      ['pump.wire.dropSize'],
    ],
    ['a breaker with room for the motor', { electrical: { breakerAmps: '20 A' } }, []],
    [
      'a breaker under 125 % of the motor',
      { electrical: { breakerAmps: '12 A' } },
      ['electrical.breakerAmps'],
    ],
    [
      'a breaker of the next size over 250 % of the tables (9.8 A: NEC 430.248)',
      {
        pump: { motor: '1/2 hp', volts: '115 V', phase: 1, maxAmps: '12 A' },
        electrical: { breakerAmps: '25 A' },
      },
      [],
    ],
    [
      'a breaker over that, though the plate has more amps than the tables',
      {
        pump: { motor: '1/2 hp', volts: '115 V', phase: 1, maxAmps: '12 A' },
        electrical: { breakerAmps: '30 A' },
      },
      ['electrical.breakerAmps'],
    ],
    ['a breaker far over it', { electrical: { breakerAmps: '40 A' } }, ['electrical.breakerAmps']],
    [
      'a breaker too small for the table’s amps',
      { pump: { motor: '2 hp', volts: '230 V', phase: 1 }, electrical: { breakerAmps: '14 A' } },
      ['electrical.breakerAmps'],
    ],
    ['a breaker where nothing is known of the motor', { pump: {}, electrical: { breakerAmps: '1 A' } }, []],
    [
      'a pump set under the bottom',
      { pump: { setDepth: '180 ft' }, hole: { depth: '160 ft' } },
      ['pump.setDepth'],
    ],
    ['a pump on the bottom', { pump: { setDepth: '160 ft' }, hole: { depth: '160 ft' } }, []],
    [
      'water under the pump',
      { pump: { setDepth: '80 ft' }, hole: { depth: '300 ft', staticLevel: '95 ft' } },
      ['hole.staticLevel'],
    ],
    ['water under the bottom', { hole: { depth: '100 ft', staticLevel: '120 ft' } }, ['hole.staticLevel']],
    ['a flowing well', { pump: { setDepth: '80 ft' }, hole: { depth: '100 ft', staticLevel: '-3 ft' } }, []],
    ['casing under the bottom', { hole: { depth: '100 ft', casingDepth: '120 ft' } }, ['hole.casingDepth']],
    [
      'a check valve under the pump',
      { pump: { setDepth: '180 ft' }, hole: { checkValves: ['at the pump', '60 ft', '200 ft'] } },
      ['hole.checkValves'],
    ],
    [
      'a pump that lifts more than comes',
      { pump: { rated: '10 gpm' }, hole: { yield: '3 gpm' } },
      ['hole.yield'],
    ],
    [
      'a pump older than its hole',
      { pump: { installed: '2003' }, hole: { drilled: '2004-08' } },
      ['pump.installed'],
    ],
    ['a pump of the hole’s year', { pump: { installed: '2004' }, hole: { drilled: '2004-08' } }, []],
    [
      'what is still to come',
      { pump: { installed: '2026-03-13' }, tank: { installed: '2027' }, hole: { drilled: '2026-03' } },
      ['pump.installed', 'tank.installed'],
    ],
  ])('%s', (_name, extra, keys) => {
    expect(keysAsked(extra)).toEqual(keys);
  });

  test('names the pump where there are several', () => {
    const { pump, ...rest } = PLAIN;
    const read = readCard({ ...rest, pumps: { p1: { pump }, p2: { pump: { ...pump, maxAmps: '4 A' } } } });
    expect('card' in read && cardQuestions(read.card).map(({ key }) => key)).toEqual([
      'pumps.p2.pump.maxAmps',
    ]);
  });

  test('asks in people’s own units and words', () => {
    const read = readCard({
      ...PLAIN,
      tank: { precharge: '45 psi' },
      pump: { ...PLAIN.pump, maxAmps: '4.9 A' },
    });
    if ('problem' in read) throw new Error(read.problem);
    const us = cardQuestions(read.card).map(({ question }) => question);
    expect(us).toEqual([
      "A motor of 1 hp, 230 V, single-phase draws about 8 A at full load, and the card says 4.9 A. What does the motor's plate say for service-factor amps?",
      'The precharge, 45 psi, is over the cut-in, 40 psi: the tank is empty before the pump starts. 2 psi (14 kPa) under cut-in is usual. Was it read with the water drained?',
    ]);
    expect(cardQuestions(read.card, 'metric')[1]?.question).toMatch(
      'The precharge, 310 kPa, is over the cut-in, 276 kPa',
    );
  });
});
