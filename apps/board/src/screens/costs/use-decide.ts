'use client';
import type { CommandBody, CommandName } from '@ullage/contracts';
import { useRouter } from 'next/navigation';
import { tell } from '../../ui/toast.tsx';
import { useAct } from '../../lib/use-act.ts';

type Decision = Extract<
  CommandName,
  'set-price' | 'withdraw-price' | 'bill-gas' | 'undo-bill' | 'plan-replacement' | 'withdraw-replacement'
>;

/** Sends one decision of the manager, tells what it did, and reads the page anew. False where it was refused. */
export function useDecide() {
  const { busy, problem, act, refuse } = useAct();
  const router = useRouter();
  async function decide<K extends Decision>(kind: K, body: CommandBody<K>, done: string): Promise<boolean> {
    const answer = await act(`/v1/commands/${kind}`, { body: { body } });
    if (answer === undefined) return false;
    tell(done);
    router.refresh();
    return true;
  }
  return { busy, problem, decide, refuse };
}

/** The field a pointer into a command's body belongs to, by the id that stands in the form. */
export const fieldIn =
  (form: string, labels: Readonly<Record<string, string>>) =>
  (pointer: string): { id: string; label: string } | undefined => {
    const name = pointer.split('/').at(-1) ?? '';
    const label = labels[name];
    return label === undefined ? undefined : { id: `${form}-${name}`, label };
  };
/** What is wrong with each field of a form, by its name. */
export function errorsOf(
  problem: { readonly errors: readonly { pointer: string; detail: string }[] } | undefined,
): Readonly<Record<string, string>> {
  const errors: Record<string, string> = {};
  for (const { pointer, detail } of problem?.errors ?? []) errors[pointer.split('/').at(-1) ?? ''] ??= detail;
  return errors;
}
