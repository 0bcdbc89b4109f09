/** What a row would make, or what is wrong with it: the shapes all kinds of file share. */
import type { CommandBody, CommandName, ImportSettings } from '@ullage/contracts';
import { faultsOf, plainWords } from '@ullage/contracts';
import type * as z from 'zod';
import type { Field } from './field.ts';
import type { Matched } from './columns.ts';
import type { Decision, Question } from './questions.ts';
import type { SheetRow } from './read/sheet.ts';

/** What the contractor has already, as far as a row could mean it. */
export interface Known {
  readonly customers: readonly { readonly id: string; readonly name: string }[];
  readonly sites: readonly {
    readonly id: string;
    readonly customerId: string;
    readonly name: string;
    readonly address: string;
  }[];
  readonly units: readonly { readonly id: string; readonly siteId: string; readonly tag: string }[];
  readonly circuits: readonly {
    readonly id: string;
    readonly unitId: string;
    readonly letter: string;
    readonly refrigerant: string;
  }[];
  /** Past additions: circuit, day and grams; null grams for an unknown mass. */
  readonly additions: readonly {
    readonly circuitId: string;
    readonly onDay: string;
    readonly grams: number | null;
  }[];
  readonly cylinders: readonly { readonly id: string; readonly serial: string; readonly specification: string }[];
  /** Everybody who is or was here, with their certificates; each ends on a day, or on none. */
  readonly people: readonly {
    readonly id: string;
    readonly name: string;
    readonly email: string | null;
    readonly certificates: readonly { readonly type: string; readonly endsOn: string | null }[];
  }[];
}

export interface Ground {
  readonly known: Known;
  readonly settings: ImportSettings;
  /** The day it is where the contractor is: no past addition lies after it. */
  readonly today: string;
  readonly refrigerants: readonly string[];
  /** Names that mean ourselves: the firm's, and those of its people. */
  readonly ours: readonly string[];
  /** Days that the law puts in place of an unknown last addition, and where it says so. */
  readonly firstRate: { readonly days: number; readonly clause: string };
  /** What was said of names that are nearly alike, by the key of the question. */
  readonly decisions: Readonly<Record<string, Decision>>;
  /** The same key gives the same id at every call: an id that is made twice is one. */
  idFor(key: string): string;
}

export interface RowFault {
  /** The column's label; null where it is the row as a whole. */
  readonly column: string | null;
  /** What is wrong and what would be right. */
  readonly text: string;
}
/** The command a row becomes, with the ids it makes. */
export interface Plan {
  readonly kind: CommandName;
  readonly body: CommandBody<CommandName>;
  readonly made: {
    readonly [kind in 'customer' | 'site' | 'unit' | 'circuit' | 'cylinder' | 'person']?: string | undefined;
  };
  /** The circuit whose books or law it touches. */
  readonly onCircuit?: string | undefined;
}
export interface Judgement {
  readonly number: number;
  readonly state: 'fine' | 'wrong' | 'known' | 'decide' | 'skipped';
  readonly faults: readonly RowFault[];
  readonly makes: readonly string[];
  readonly asks: readonly Question[];
  readonly plan: Plan | null;
}

/** A row's cells by field; an empty cell is absent. */
export class Cells {
  readonly #byField: ReadonlyMap<string, string>;
  readonly #labels: ReadonlyMap<string, string>;
  readonly faults: RowFault[] = [];
  constructor(row: SheetRow, matched: Matched, fields: readonly Field[]) {
    const pairs = matched.flatMap((id, column): [string, string][] => {
      const cell = row.cells[column] ?? '';
      return id === null || cell === '' ? [] : [[id, cell]];
    });
    this.#byField = new Map(pairs);
    this.#labels = new Map(fields.map(({ id, label }) => [id, label]));
  }
  get(id: string): string | undefined {
    return this.#byField.get(id);
  }
  labelOf(id: string): string {
    return this.#labels.get(id) ?? id;
  }
  /** Notes that a column is wrong; `why` goes on from its label. */
  fault(id: string | null, why: string): undefined {
    const column = id === null ? null : this.labelOf(id);
    const text = column === null ? why : `${column}: ${why}`;
    if (!this.faults.some((other) => other.text === text)) this.faults.push({ column, text });
    return undefined;
  }
  /** The value of a cell that could be read; undefined with a fault for one that could not. */
  read<T>(id: string, cell: { ok: true; value: T } | { ok: false; why: string }): T | undefined {
    return cell.ok ? cell.value : this.fault(id, cell.why);
  }
}

/** A body as its command's schema has it, else its faults at the columns they come from. */
export function checked<T extends z.ZodType>(
  cells: Cells,
  given: { schema: T; body: unknown; columnOf: (pointer: string) => string | null },
): z.output<T> | undefined {
  const parsed = given.schema.safeParse(given.body, { error: plainWords });
  if (parsed.success) return parsed.data;
  for (const { pointer, detail } of faultsOf(parsed.error)) {
    const id = given.columnOf(pointer);
    const column = id === null ? null : cells.labelOf(id);
    if (!cells.faults.some((other) => other.text === detail)) cells.faults.push({ column, text: detail });
  }
  return undefined;
}

/** A row of which nothing is carried out. */
export const without = (
  number: number,
  state: Exclude<Judgement['state'], 'fine'>,
  more: Partial<Pick<Judgement, 'faults' | 'asks'>> = {},
): Judgement => ({ number, state, faults: [], makes: [], asks: [], ...more, plan: null });
export const wrongRow = (number: number, { faults }: Cells): Judgement => without(number, 'wrong', { faults });
