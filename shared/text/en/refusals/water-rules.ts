/**
 * Rules of a result of a laboratory as it is copied from the report, each to stand after the name
 * of its field, and remarks on how a unit was read. Names of units stay as they are typed.
 */
import { either } from './quantity-rules.ts';

type Word = string | number;

const asMgPerL = 'taken as mg/L: a liter of drinking water weighs very nearly a kilogram';

export const waterRules = {
  mustBeAName: (characters: Word) => `must be a name of 1 to ${characters} characters`,
  mustBeAsReported: 'must be given as the report gives it',
  mustBeText: (characters: Word) => `must be text of at most ${characters} characters`,
  mustBeANumberOrNone: 'must be a number, "< …" or "not detected": absent and present are for bacteria',
  mustBeAResult: 'must be a number, "< 0.5", "> 200", absent, present or not detected',
  mustBeSaidOnce: ({ one, other }: Record<'one' | 'other', Word>) =>
    `must be said once: "${one}" stands behind the number and "${other}" beside it`,
  mustHaveAUnit: 'must be given: a number without its unit says nothing',
  mustBeAPh: 'must be a pH from 0 to 14',
  mustBeLessThanWater: 'must be less than the water itself weighs; is the unit right?',
  mustBeOneOf: (units: readonly string[]) => `must be ${either(units)}`,
  mustFitTheName: ({ name, unit }: Record<'name' | 'unit', Word>) =>
    `must fit the name: the name says as ${name} and the unit as ${unit}`,
  mustNotBeAs: ({ form, analyte }: Record<'form' | 'analyte', Word>) =>
    `must not be as ${form}: ${analyte} is not given so`,
  mustSayAsWhat: (forms: readonly string[]) =>
    `must say as what, ${forms.map((form) => `as ${form}`).join(' or ')}; the report says which`,
  remarks: {
    ppm: `ppm ${asMgPerL}`,
    ppb: `ppb, thousandths of ppm, which is ${asMgPerL}`,
    ppt: `ppt, millionths of ppm, which is ${asMgPerL}`,
    grains: 'grains per US gallon: 17.118 mg/L each',
  },
};

export type UnitRemark = keyof typeof waterRules.remarks;
