/**
 * What to have ready for a technician: what is known, in people's units, and what is missing on the
 * card.
 */
import { expect, test } from 'vitest';
import { serviceFacts } from '../../dashboards/words/service-facts.ts';
import type { PumpDetail, WellDetail } from '../../shared/api/wells.ts';

/** Only what is read of a well's detail. */
const detail = (card: WellDetail['card']) =>
  ({ card, nowMs: Date.parse('2026-07-14T18:15:00Z') }) as unknown as WellDetail;

test('a card that says all leaves nothing to ask', () => {
  const pump: PumpDetail = {
    pump: 'p1',
    control: 'pressure-switch',
    kind: 'submersible',
    motorW: 745.7,
    volts: 230,
    phase: 1,
    wires: 3,
    setDepthM: 54.864,
    installed: '2019-05-14',
    maxAmps: 9.8,
  };
  const { known, missing } = serviceFacts(
    detail({
      cutInKpa: 275.8,
      cutOutKpa: 413.7,
      reliefKpa: 517.1,
      tankKind: 'captive-air',
      tankL: 166.6,
      prechargeKpa: 262,
    }),
    pump,
    'us',
  );
  expect(known).toEqual([
    ['Pump', 'submersible, 1 hp'],
    ['Motor', '230 V, single phase, 3 wires, 9.8 A maximum'],
    ['Set at', '180 ft'],
    ['Installed', '14 May 2019'],
    ['Tank', 'captive air, 44 gal'],
    ['Precharge', '38 psi'],
    ['Switch', '40 psi to 60 psi'],
    ['Relief valve', '75 psi'],
  ]);
  expect(missing).toEqual([]);
});

test('what is not on the card is asked for; what is only not learnt yet is not', () => {
  const { known, missing } = serviceFacts(detail({}), { pump: 'p1', control: 'float' }, 'metric');
  expect(known).toEqual([]);
  expect(missing.join(', ')).toBe(
    'type and power of the pump, motor nameplate, setting depth of the pump, installation date of the pump, type and size of the tank, tank precharge, pressure switch, relief valve',
  );
});

test('a plain tank has no precharge to ask for', () => {
  const { missing } = serviceFacts(detail({ tankKind: 'plain', tankL: 300 }), undefined, 'us');
  expect(missing).not.toContain('tank precharge');
});
