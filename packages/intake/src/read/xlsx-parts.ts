/** The parts of a workbook that a sheet's cells lean on (ECMA-376, part 1: 18.2, 18.4, 18.8). */
import { readXml } from './xml.ts';

/** The first sheet that is not hidden, as the workbook names it; and from which year its days count. */
export function firstSheet(workbook: Uint8Array): { relation: string | undefined; is1904: boolean } {
  let relation: string | undefined;
  let is1904 = false;
  readXml(workbook, {
    open(name, attributes) {
      if (name === 'workbookPr') is1904 = ['1', 'true'].includes(attributes['date1904'] ?? '');
      if (name !== 'sheet' || relation !== undefined || (attributes['state'] ?? 'visible') !== 'visible') return;
      relation = Object.entries(attributes).find(([key]) => /^\w+:id$/.test(key))?.[1];
    },
  });
  return { relation, is1904 };
}

/** Where a relation leads, as a path inside the workbook. */
export function targetOf(relations: Uint8Array, id: string): string | undefined {
  let target: string | undefined;
  readXml(relations, {
    open(name, attributes) {
      if (name === 'Relationship' && attributes['Id'] === id) target = attributes['Target'];
    },
  });
  return target?.startsWith('/') === true ? target.slice(1) : target && `xl/${target}`;
}

/** Texts that cells share, by their place. What only says how a text is spoken is left out. */
export function sharedTexts(part: Uint8Array | undefined): string[] {
  const texts: string[] = [];
  if (!part) return texts;
  let text = '';
  let inText = false;
  let spoken = 0;
  readXml(part, {
    open(name) {
      if (name === 'si') text = '';
      if (name === 'rPh') spoken += 1;
      if (name === 't') inText = spoken === 0;
    },
    text(piece) {
      if (inText) text += piece;
    },
    close(name) {
      if (name === 't') inText = false;
      if (name === 'rPh') spoken -= 1;
      if (name === 'si') texts.push(text);
    },
  });
  return texts;
}

/** Formats of days that a workbook need not spell out (18.8.30), those of other languages with them. */
const isBuiltInDay = (id: number): boolean =>
  (id >= 14 && id <= 17) || id === 22 || (id >= 27 && id <= 36) || (id >= 50 && id <= 58);
/** A format of days names day or year, outside quotes, brackets and escapes. */
const isDayCode = (code: string): boolean => /[dy]/i.test(code.replaceAll(/"[^"]*"|\[[^\]]*\]|\\.|_./g, ''));

/** For each style of cells, whether it shows a number as a day. */
export function dayStyles(part: Uint8Array | undefined): boolean[] {
  const codes = new Map<number, string>();
  const styles: boolean[] = [];
  if (!part) return styles;
  let inCells = false;
  readXml(part, {
    open(name, attributes) {
      if (name === 'numFmt') codes.set(Number(attributes['numFmtId']), attributes['formatCode'] ?? '');
      if (name === 'cellXfs') inCells = true;
      if (name !== 'xf' || !inCells) return;
      const id = Number(attributes['numFmtId'] ?? 0);
      const code = codes.get(id);
      styles.push(code === undefined ? isBuiltInDay(id) : isDayCode(code));
    },
    close(name) {
      if (name === 'cellXfs') inCells = false;
    },
  });
  return styles;
}
