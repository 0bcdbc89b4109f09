import { asksOfBooks, follow, reconcile, reconcileFact, reverse } from '@ullage/gasbook';
import type { DerivedPosting, Flow, Posting, Reconciliation } from '@ullage/gasbook';
import type { Case } from '../pipeline/case.ts';
import { lockAccounts, lockOutside } from '../pipeline/lock.ts';
import { accountFile, flowsOf } from './account-file.ts';
import type { AccountFile, Derived } from './account-file.ts';
import { derivedAgainst, outsideAccounts } from './accounts.ts';
import { askAboutActs } from './ask-after.ts';
import { keepDoubts } from './doubt-rows.ts';
import type { GasFact } from './gas-facts.ts';
import { enterMovements } from './movement-rows.ts';
import type { BookedMovement } from './movement-rows.ts';

/**
 * Works out anew what follows from the facts of every touched account, and of those that their gas went to: what no
 * longer follows is reversed, what is new is posted, what is equal stays; doubts alike. Whatever order facts arrive in,
 * the books end equal.
 */
export async function deriveBooks(desk: Case): Promise<void> {
  if (desk.accounts.size === 0) return;
  const all = await followGas(desk);
  const entering = all.map((derived) => enteringOf(desk, derived));
  const movements = [
    ...entering.flatMap(({ reversed }) => reversed),
    ...entering.flatMap(({ drawn }) => drawn),
    ...entering.flatMap(({ fresh }) => fresh),
  ];
  if (movements.length > 0) {
    await lockOutside(desk.tx, desk.tenantId);
    await enterMovements(desk, movements);
  }
  const doubted = await keepDoubts(
    desk,
    all.map(({ file, outcome }) => ({ accountId: file.accountId, wanted: outcome.doubts, rows: file.doubts })),
  );
  all.forEach(({ file: { accountId, subject } }, index) => {
    const books = entering[index];
    const isTouched = desk.accounts.has(accountId);
    const isMoved = books !== undefined && books.reversed.length + books.fresh.length + books.drawn.length > 0;
    if (isTouched || isMoved || doubted.has(accountId)) desk.changed(subject.kind, subject.id);
    if (isTouched && books) for (const ask of booksAsk(books)) desk.raise({ ...ask, subject });
  });
  await askAboutActs(desk, all);
}

/** Reads the touched accounts, and those that a change reaches, until nothing is missing. */
async function followGas(desk: Case): Promise<Derived[]> {
  const outsideIds = await outsideAccounts(desk.tx, desk.tenantId);
  const source = { tx: desk.tx, tenantId: desk.tenantId, calendar: desk.world.calendar };
  const files = new Map<string, AccountFile>();
  const changed = [...desk.accounts].sort();
  for (let missing: readonly string[] = changed; ;) {
    // Locked already, but for what a command that came in between has moved there.
    await lockAccounts(desk.tx, desk.tenantId, missing);
    for (const accountId of missing)
      files.set(accountId, await accountFile(source, { accountId, serviceLoss: outsideIds['service-loss'] }));
    const followed = follow({
      timelines: new Map([...files].map(([id, { timeline }]) => [id, timeline])),
      changed,
      beyond: new Set(Object.values(outsideIds)),
      world: {
        outside: derivedAgainst(outsideIds),
        flows: new Map<string, Flow>([...files.values()].flatMap(flowsOf)),
      },
    });
    if (followed.missing.length > 0) {
      missing = followed.missing;
      continue;
    }
    return [...followed.outcomes]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .flatMap(([id, outcome]) => {
        const file = files.get(id);
        return file ? [{ file, outcome }] : [];
      });
  }
}

/** What is entered for one account. */
interface Entering {
  readonly reversed: readonly BookedMovement[];
  /** Derived against outside accounts. */
  readonly fresh: readonly (BookedMovement & DerivedPosting)[];
  /** What its facts drew. */
  readonly drawn: readonly BookedMovement[];
}

/** Where the books of an account and its facts do not say the same. */
interface Amiss {
  readonly derived: Reconciliation<BookedMovement, DerivedPosting>;
  readonly drawn: readonly (Reconciliation<BookedMovement, Posting> & { readonly fact: GasFact })[];
}
export function amissIn({ file, outcome }: Derived): Amiss {
  const { accountId: account, movements, facts, primary } = file;
  return {
    derived: reconcile({ account, wanted: outcome.derived, standing: movements }),
    drawn: facts.map((fact) => {
      const standing = (primary.get(fact.id) ?? []).filter(({ from }) => from === account);
      return { fact, ...reconcileFact({ wanted: outcome.drawn.get(fact.id)?.postings ?? [], standing }) };
    }),
  };
}

function enteringOf(desk: Case, one: Derived): Entering {
  const stamp = () => ({ id: desk.world.newId(), recordedAt: desk.recordedAt });
  const { derived, drawn } = amissIn(one);
  const wrong: BookedMovement[] = [...derived.reverse, ...drawn.flatMap(({ reverse: undone }) => undone)];
  return {
    reversed: wrong.map((movement) => reverse(movement, stamp())),
    fresh: derived.post.map((posting) => ({
      ...posting,
      ...stamp(),
      factId: posting.derived.fromFact,
      visitId: null,
      measured: 'derived',
    })),
    drawn: drawn.flatMap(({ fact, post }) => {
      const rest = { factId: fact.id, visitId: fact.visitId, measured: measuredBy(fact.kind) };
      return post.map((posting) => ({ ...posting, ...stamp(), ...rest }));
    }),
  };
}
const measuredBy = (kind: string): BookedMovement['measured'] => (kind === 'service-loss' ? 'estimate' : 'scale');

/** Two sigma of an ordinary field scale (14 g, common practice): below it two readings of one weight differ by themselves. */
const SCALE_NOISE_GRAMS = 28;
const WEIGHED: ReadonlySet<string> = new Set(['weighing-differs', 'accepted-differs']);

/** Questions that the derived postings raise by themselves, whoever caused them. A sum that only falls on other gases is no news. */
function booksAsk({ reversed, fresh }: Entering) {
  const sumOf = (postings: readonly Posting[]): number => postings.reduce((sum, { grams }) => sum + grams, 0);
  const telling = fresh.filter(({ derived: { cause, fromFact } }) => {
    const ofOne = <P extends { readonly derived?: DerivedPosting['derived'] }>(all: readonly P[]): P[] =>
      all.filter(({ derived }) => derived?.cause === cause && derived.fromFact === fromFact);
    const now = sumOf(ofOne(fresh));
    return now !== sumOf(ofOne(reversed)) && (!WEIGHED.has(cause) || now > SCALE_NOISE_GRAMS);
  });
  return asksOfBooks(telling);
}
