/**
 * Words for hardness as CaCO3. Classes of the US Geological Survey as quoted in a public table:
 * 0-60 soft, 61-120 moderately hard, 121-180 hard, over 180 mg/L very hard. They are given in whole
 * mg/L, so a figure between two classes is rounded first. Other bodies draw the lines elsewhere:
 * the number is kept and the word derived.
 */
import { adviceTexts as texts } from './advice-texts.ts';

export function hardnessClass(mgPerLAsCaCO3: number): string {
  const { soft, moderate, hard, veryHard } = texts().hardness;
  const whole = Math.round(mgPerLAsCaCO3);
  if (whole <= 60) return soft;
  if (whole <= 120) return moderate;
  return whole <= 180 ? hard : veryHard;
}
