/** Single substances: what kind they are before the law, and the GWP that 40 CFR Part 84 gives them. */
export type SubstanceKind = 'ods' | 'hfc' | 'other';

export interface Substance {
  readonly kind: SubstanceKind;
  /** Decimal text; absent where Part 84 lists none, or where no rule here asks for it. */
  readonly gwp?: string;
  readonly source: string;
}

const ods = (source: string): Substance => ({ kind: 'ods', source });
const CLASS_I = ods('40 CFR 82 Subpart A, Appendix A (class I)');
const CLASS_II = ods('40 CFR 82 Subpart A, Appendix B (class II)');
const hfc = (gwp: string): Substance => ({ kind: 'hfc', gwp, source: '40 CFR 84, Appendix A (exchange value)' });
const listed = (gwp: string): Substance => ({ kind: 'other', gwp, source: '40 CFR 84.64(b)' });
const unlisted: Substance = { kind: 'other', source: 'not listed in 40 CFR 84.64(b): left out of a blend' };

export const SUBSTANCES: Readonly<Record<string, Substance>> = {
  'R-11': CLASS_I,
  'R-12': CLASS_I,
  'R-13': CLASS_I,
  'R-113': CLASS_I,
  'R-114': CLASS_I,
  'R-115': CLASS_I,
  'R-22': CLASS_II,
  'R-123': CLASS_II,
  'R-124': CLASS_II,
  'R-142b': CLASS_II,
  'R-23': hfc('14800'),
  'R-32': hfc('675'),
  'R-125': hfc('3500'),
  'R-134a': hfc('1430'),
  'R-143a': hfc('4470'),
  'R-152a': hfc('124'),
  'R-227ea': hfc('3220'),
  'R-236fa': hfc('9810'),
  'R-245fa': hfc('1030'),
  'R-290': listed('3.3'),
  'R-600a': listed('1'),
  'R-717': listed('1'),
  'R-744': listed('1'),
  'R-1270': listed('1.8'),
  'R-1234yf': listed('1'),
  'R-1234ze(E)': listed('1'),
  'R-1233zd(E)': listed('4'),
  'R-1336mzz(Z)': listed('2'),
  'R-1336mzz(E)': listed('26'),
  'HFE-569sf2': listed('59'),
  'R-116': unlisted,
  'R-600': unlisted,
  'R-601a': unlisted,
};
