import { describe, expect, test } from 'vitest';
import { mayPublish, maySubscribe, type Session } from '../../src/mqtt/access.ts';

const GATE: Session = { user: 'gate', names: new Set(['gate', 'shed']), listenOnly: false };
const LOCAL: Session = { names: 'any', listenOnly: false };
const RECORDER: Session = { user: 'recorder', names: new Set(['recorder']), listenOnly: true };

describe('mayPublish', () => {
  test.each([
    ['wells/gate/hello', 'hello', 'hello'],
    ['wells/shed/readings', 'readings', 'readings'],
    ['wells/gate/start', 'start', 'start'],
    ['wells/gate/presence', 'presence', 'presence'],
    ['wells/other/readings', undefined, 'readings'],
    ['wells/Other/readings', undefined, undefined],
    ['wells//readings', undefined, undefined],
    ['wells/gate/kept', undefined, undefined],
    ['wells/gate/ask', undefined, undefined],
    ['wells/gate/readings/', undefined, undefined],
    ['wells/gate', undefined, undefined],
    ['wells', undefined, undefined],
    ['well/gate/readings', undefined, undefined],
    ['wellsx/gate/readings', undefined, undefined],
    ['/wells/gate/readings', undefined, undefined],
  ])('%s', (topic, gate, local) => {
    expect(mayPublish('wells', GATE, topic)).toBe(gate);
    expect(mayPublish('wells', LOCAL, topic)).toBe(local);
  });

  test('a root of several levels', () => {
    expect(mayPublish('firm/wells', GATE, 'firm/wells/gate/readings')).toBe('readings');
    expect(mayPublish('firm/wells', GATE, 'firm/gate/readings')).toBeUndefined();
  });
});

describe('maySubscribe', () => {
  test.each([
    ['wells/gate/kept', true, true],
    ['wells/shed/ask', true, true],
    ['wells/other/kept', false, true],
    ['wells/gate/readings', false, true],
    ['wells/+/kept', false, true],
    ['wells/gate/#', false, true],
    ['wells/#', false, true],
    ['#', false, false],
    ['+/gate/kept', false, false],
    ['$SYS/#', false, false],
    ['$share/g/wells/gate/kept', false, false],
  ])('%s', (filter, gate, all) => {
    expect(maySubscribe('wells', GATE, filter)).toBe(gate);
    expect(maySubscribe('wells', LOCAL, filter)).toBe(all);
    expect(maySubscribe('wells', RECORDER, filter)).toBe(all);
  });
});
