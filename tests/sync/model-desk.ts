/** The model as the simulation drives it. */
import { OfficeModel } from './office-model.ts';
import { idsOf } from './run.ts';
import type { Clock, Desk, Ground } from './run.ts';

export const START_MS = Date.parse('2026-05-04T14:00:00Z');

export function groundOf(seed: number, visits: number): Ground {
  const newId = idsOf(seed + 0x0100_0000);
  const some = (): string[] => Array.from({ length: visits }, newId);
  return { visits: some(), cylinders: some(), circuits: some() };
}
export function modelDesk(ground: Ground, clock: Clock, pageRows = 50): Desk & { readonly model: OfficeModel } {
  const { visits, cylinders } = ground;
  const model = new OfficeModel({ visits, cylinders, pageRows, now: () => clock.now });
  let kept = model.backup();
  return {
    model,
    push: (userId, batch, upTo) => model.push(userId, batch, upTo),
    pull: (userId, asked) => model.pull(userId, asked),
    readVisit: (_, id) => model.readVisit(id),
    place: (visitId, people) => model.place(visitId, people),
    attention: () => [...model.state.attention],
    tryAgain: (id) => model.tryAgain(id),
    leaveOut: (id) => model.leaveOut(id),
    backup: () => void (kept = model.backup()),
    restore: () => model.restore(kept),
    applied: () =>
      [...model.state.commands.values()].filter(({ state }) => state === 'applied').map(({ envelope }) => envelope.id),
    books: () => {
      const books: Record<string, number> = {};
      for (const { cylinderId, grams } of model.state.charged.values())
        books[cylinderId] = (books[cylinderId] ?? 0) + grams;
      return books;
    },
    scopeOf: (person) => model.pull(person, { epoch: 0, number: 0, commandIds: [] }).scope,
  };
}
