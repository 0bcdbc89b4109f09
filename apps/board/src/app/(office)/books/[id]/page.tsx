import { Id, StatementView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { cache } from 'react';
import { get } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { StatementPage } from '../../../../office/statement/statement-page.tsx';

type Asked = PageProps<'/books/[id]'>;
const one = (value: string | string[] | undefined): string => (Array.isArray(value) ? (value[0] ?? '') : (value ?? ''));

/** Once a page: its title and its body ask for the same. */
const getStatement = cache((path: `/v1/${string}`) => get(path, StatementView));
async function statementOf({ params, searchParams }: Asked): Promise<StatementView> {
  const [{ id }, said] = await Promise.all([params, searchParams]);
  const asked = new URLSearchParams();
  const gas = one(said['gas']).trim().slice(0, 40);
  if (gas !== '') asked.set('refrigerant', gas);
  // A cursor somebody typed asks for the newest page.
  if (Id.safeParse(one(said['before'])).success) asked.set('before', one(said['before']));
  return getStatement(`/v1/books/${encodeURIComponent(id)}${asked.size === 0 ? '' : `?${asked}`}`);
}

export async function generateMetadata(asked: Asked): Promise<Metadata> {
  // What fails here fails in the page too, which says so; the error screen keeps the usual title.
  const statement = await statementOf(asked).catch(() => undefined);
  return statement ? { title: `Statement of ${statement.account.title}` } : {};
}

export default async function Page(asked: Asked) {
  const [statement, me] = await Promise.all([statementOf(asked), getMe()]);
  return <StatementPage statement={statement} zone={me.tenant.timeZone} />;
}
