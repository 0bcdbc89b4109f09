import type { AirCheckView } from '@ullage/contracts';
import { isMixed } from '@ullage/gasbook';
import type { Portion } from '@ullage/gasbook';
import type { Ask, Case } from '../pipeline/case.ts';
import type { GasFact } from './gas-facts.ts';

const SAYS: Readonly<Record<AirCheckView['verdict'], Ask>> = {
  'within-shop-limit': {
    code: 'air-within-shop-limit',
    text: 'Air is within the shop limit. Doubts about air from before this check are cleared.',
  },
  'over-shop-limit': {
    code: 'air-over-shop-limit',
    text: 'Air is over the shop limit. Do not charge from it; mark it, and ask the reclaimer.',
  },
  'cannot-tell': {
    code: 'air-cannot-tell',
    text: 'The readings cannot tell. Let it rest longer, and read with a finer gauge and thermometer.',
  },
  'not-defined': {
    code: 'air-not-defined',
    text: 'The check says nothing: no liquid, no vapour space, another gas, or liquid colder than measured.',
  },
};
const OF_MIXED: Ask = {
  code: 'air-not-defined',
  text: 'The books have another gas in it, or mixed gas: its pressure says nothing about air.',
};

/** Answers an air check: what it showed of the gas that was inside then, and that no gauge certifies the purity limit. */
export function sayAirCheck(desk: Case, { fact, contents }: { fact: GasFact; contents: readonly Portion[] }): void {
  const { refrigerant, answer } = fact.body as { refrigerant: string; answer: Pick<AirCheckView, 'verdict'> };
  const { code, text } = isMixed(contents, refrigerant) ? OF_MIXED : SAYS[answer.verdict];
  desk.ask(code, text);
  desk.ask('purity-not-certifiable', 'A gauge cannot certify the purity limit of 1.5 % by volume; a laboratory can.');
}
