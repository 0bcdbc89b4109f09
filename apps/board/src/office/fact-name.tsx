import type { FactLink } from '@ullage/contracts';
import Link from 'next/link';
import { factPath } from './link-to.ts';

/** A fact by its name, leading to where it stands: "verification test: initial, L1: pass". */
export function FactName({ fact }: { fact: FactLink }) {
  const name = `${fact.title.toLowerCase()}${fact.summary === '' ? '' : `: ${fact.summary}`}`;
  const href = factPath(fact);
  return href === undefined ? name : <Link href={href}>{name}</Link>;
}
