/**
 * The tables of a card's fields in firmware-contract/contract.md, made of the table that the reader
 * goes by and of the words of the form.
 */
import {
  CARD,
  CARD_NOTES,
  CONTROL,
  ELECTRICAL,
  HOLE,
  PROTECTOR,
  PUMP,
  PUMP_NOTES,
  SWITCH,
  TANK,
  TANK_NOTES,
  WHERE,
  WIRES,
} from '../../shared/card/card-fields.ts';
import { fieldName, fieldOf } from '../../shared/card/fields.ts';
import type { Fields } from '../../shared/schema/field.ts';
import { fieldText } from '../../shared/schema/field-text.ts';

const JUDGED_BY: Record<string, Fields> = {
  '': { ...CARD, ...CONTROL },
  pump: PUMP,
  'pump.protector': PROTECTOR,
  switch: SWITCH,
  tank: TANK,
};
const DESCRIBES: Record<string, Fields> = {
  '': CARD_NOTES,
  pump: PUMP_NOTES,
  tank: TANK_NOTES,
  hole: HOLE,
  electrical: ELECTRICAL,
  'electrical.wires': WIRES,
  where: WHERE,
};

/** The contract's text with its tables made anew, each between its two marks. */
export function withCardTables(contract: string): string {
  return replaceTable(replaceTable(contract, 'fields', JUDGED_BY), 'descriptive fields', DESCRIBES);
}

function replaceTable(contract: string, name: string, objects: Record<string, Fields>): string {
  const [start, end] = [`<!-- ${name} -->`, `<!-- end of ${name} -->`];
  const [before, inside] = contract.split(start);
  const after = inside?.split(end)[1];
  if (before === undefined || after === undefined)
    throw new Error(`contract.md must have ${start} and ${end}`);
  return `${before}${start}\n\n${tableOf(objects)}\n\n${end}${after}`;
}

function tableOf(objects: Record<string, Fields>): string {
  const rows = Object.entries(objects).flatMap(([at, fields]) =>
    Object.entries(fields).map(([key, field]) => {
      const dotted = at === '' ? key : `${at}.${key}`;
      const words = fieldOf(dotted);
      return `| \`${dotted}\` | ${words ? fieldName(words) : 'Name of the well'} | ${fieldText(field)} |`;
    }),
  );
  return ['| key | what it is | how it is written |', '| --- | --- | --- |', ...rows].join('\n');
}
