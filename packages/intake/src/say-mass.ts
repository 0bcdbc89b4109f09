import { bookedGrams } from '@ullage/units';
import type { EnteredMass, MassUnit } from '@ullage/units';
import { massCell, short, unitOf } from './cells.ts';
import type { Cells, Ground } from './judge.ts';

interface MassColumn {
  readonly id: string;
  /** The column its unit stands in. */
  readonly unitId?: string;
  readonly settings: Ground['settings'];
  /** A part of the cell in place of all of it, and the unit it takes where it bears none. */
  readonly text?: string | undefined;
  readonly unit?: MassUnit;
}

/** A mass in a cell, with its unit there, in a column of its own, or as the settings say. */
export function sayMass(cells: Cells, { id, unitId, settings, ...part }: MassColumn): EnteredMass | undefined {
  const text = part.text ?? cells.get(id);
  if (text === undefined) return undefined;
  const unitText = unitId === undefined ? undefined : cells.get(unitId);
  const unit = unitText === undefined ? settings.massUnit : unitOf(unitText);
  if (unit === undefined && unitId !== undefined)
    return cells.fault(unitId, `“${short(unitText ?? '')}” is no unit of mass; give lb, oz, kg or g.`);
  const otherwise = part.unit ?? unit ?? settings.massUnit;
  return cells.read(id, massCell(text, { unit: otherwise, decimal: settings.decimal }));
}

export const gramsOf = (mass: EnteredMass | null): number | null => (mass === null ? null : bookedGrams(mass));
export const massWords = ({ value, unit }: EnteredMass): string => (unit === 'lb-oz' ? value : `${value} ${unit}`);
