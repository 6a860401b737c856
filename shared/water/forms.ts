/**
 * As which substance a mass is counted, and how laboratories write it. Nitrate as N and as NO3
 * differ by a factor of 4.4, so it must be said which.
 */
export type Form = 'N' | 'NO3' | 'NO2' | 'CaCO3' | 'Cl2';

export const FORMS_BY_TEXT: Readonly<Record<string, Form>> = {
  n: 'N',
  nitrogen: 'N',
  'no3-n': 'N',
  'no2-n': 'N',
  no3: 'NO3',
  nitrate: 'NO3',
  no2: 'NO2',
  nitrite: 'NO2',
  caco3: 'CaCO3',
  cl2: 'Cl2',
};
