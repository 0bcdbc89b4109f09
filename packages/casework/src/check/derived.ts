import { follow } from '@ullage/gasbook';
import { accountFile, flowsOf } from '../gas/account-file.ts';
import { derivedAgainst, outsideAccounts } from '../gas/accounts.ts';
import { amissIn } from '../gas/derive.ts';
import { doubtsAmiss } from '../gas/doubt-rows.ts';
import type { Checking, Found } from './shapes.ts';

/**
 * Derives every cylinder's and circuit's postings and doubts from its facts anew, given what the books say came in, and
 * tells where the books hold others. Account by account: if each follows from those before it, all do.
 */
export async function derivedPostings({ tx, tenantId, calendar }: Checking): Promise<Found> {
  const outsideIds = await outsideAccounts(tx, tenantId);
  const outside = derivedAgainst(outsideIds);
  const beyond = new Set(Object.values(outsideIds));
  const accounts = await tx.gasAccount.findMany({
    where: { tenantId, kind: { in: ['cylinder', 'circuit'] } },
    select: { id: true },
    orderBy: { id: 'asc' },
  });
  const wrong: string[] = [];
  let looked = 0;
  for (const { id: accountId } of accounts) {
    const file = await accountFile({ tx, tenantId, calendar }, { accountId, serviceLoss: outsideIds['service-loss'] });
    const timelines = new Map([[accountId, file.timeline]]);
    const world = { outside, flows: new Map(flowsOf(file)) };
    const outcome = follow({ timelines, changed: [accountId], beyond, world }).outcomes.get(accountId);
    if (!outcome) throw new Error('an account that was asked for was not gone through');
    const { derived, drawn } = amissIn({ file, outcome });
    const doubts = doubtsAmiss({ accountId, wanted: outcome.doubts, rows: file.doubts });
    const sum = (of: 'reverse' | 'post'): number => [derived, ...drawn].reduce((n, one) => n + one[of].length, 0);
    const [stray, missing] = [sum('reverse') + doubts.stray, sum('post') + doubts.missing];
    looked += outcome.derived.length + outcome.drawn.size + outcome.doubts.length;
    if (stray + missing === 0) continue;
    const causes = [
      ...derived.reverse.flatMap((one) => one.derived?.cause ?? []),
      ...derived.post.map((one) => one.derived.cause),
    ];
    const named = causes.length === 0 ? '' : ` (${[...new Set(causes)].join(', ')})`;
    wrong.push(`${file.subject.kind} account ${accountId}: ${stray} do not follow, ${missing} are missing${named}`);
  }
  return { looked, wrong };
}
