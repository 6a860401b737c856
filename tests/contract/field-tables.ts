/**
 * The tables of a card's fields and of the acts in firmware-contract/contract.md, made of the
 * tables that the readers go by and of the words of the form.
 */
import { ACT_FIELDS } from '../../shared/acts/act-fields.ts';
import { CARD, CONTROL, PROTECTOR, PUMP, SWITCH, TANK } from '../../shared/card/card-fields.ts';
import { DESCRIPTION_OBJECTS } from '../../shared/card/description-fields.ts';
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

/** The contract's text with its tables made anew, each between its two marks. */
export function withFieldTables(contract: string): string {
  const withFields = replaceTable(contract, 'fields', cardTable(JUDGED_BY));
  const withDescriptive = replaceTable(withFields, 'descriptive fields', cardTable(DESCRIPTION_OBJECTS));
  return replaceTable(withDescriptive, 'acts', actTable());
}

function replaceTable(contract: string, name: string, table: string): string {
  const [start, end] = [`<!-- ${name} -->`, `<!-- end of ${name} -->`];
  const [before, inside] = contract.split(start);
  const after = inside?.split(end)[1];
  if (before === undefined || after === undefined)
    throw new Error(`contract.md must have ${start} and ${end}`);
  return `${before}${start}\n\n${table}\n\n${end}${after}`;
}

function cardTable(objects: Record<string, Fields>): string {
  const rows = Object.entries(objects).flatMap(([at, fields]) =>
    Object.entries(fields).map(([key, field]) => {
      const dotted = at === '' ? key : `${at}.${key}`;
      const words = fieldOf(dotted);
      return `| \`${dotted}\` | ${words ? fieldName(words) : 'Name of the well'} | ${fieldText(field)} |`;
    }),
  );
  return ['| key | what it is | how it is written |', '| --- | --- | --- |', ...rows].join('\n');
}

/**
 * A row a field, the act named at its first. Which acts name their well is said beneath; the kinds
 * of alarm have a table of their own.
 */
function actTable(): string {
  const rows = Object.entries<Fields>(ACT_FIELDS).flatMap(([act, { well: _well, ...fields }]) => {
    const written = Object.entries(fields).map(
      ([key, field]) => `\`${key}\` | ${key === 'alarm' ? 'a kind of alarm' : fieldText(field)} |`,
    );
    return (written.length === 0 ? [' | |'] : written).map(
      (cells, at) => `| ${at === 0 ? `\`${act}\`` : ''} | ${cells}`,
    );
  });
  const card = '| `card-changed` | `card` | the whole new card (section 5) |';
  return ['| act | key | how it is written |', '| --- | --- | --- |', card, ...rows].join('\n');
}
