import { expect, test } from 'vitest';
import { MOTOR_JUDGEMENTS } from '../../../shared/api/figures/motor-readings.ts';
import {
  judgementText,
  motorFactsText,
  windingSetText,
} from '../../../shared/text/en/checks/motor-readings.ts';

test('what a reading shows is one line, figures first', () => {
  expect(motorFactsText({ motorOhm: 2, wireOhm: 0.79 })).toBe('2 ohm without the 0.79 ohm of the wire.');
  expect(motorFactsText({ printedUf: 35, judgement: 'capacitor-off' })).toBe(
    'Printed: 35 uF. Outside the range printed on it: have the contractor replace it.',
  );
  expect(windingSetText({ yellowBlack: 2, yellowRed: 6, redBlack: 8 }, undefined)).toBe(
    'Motor leads, with the wire: yellow to black 2 ohm, yellow to red 6 ohm, red to black 8 ohm.',
  );
});

test('no judgement asks anybody to open or measure, and damage says whom to call', () => {
  for (const judgement of MOTOR_JUDGEMENTS) expect(judgementText(judgement)).not.toMatch(/\bopen\b/i);
  expect(judgementText('insulation-damaged')).toMatch(/switched off and call a licensed electrician/);
});
