import { OVERRIDE_RULES, Refusal } from '@ullage/contracts';
import type { BrokenRule, CommandBody } from '@ullage/contracts';
import { mayPlace } from '@ullage/roster';
import type { Proposal, Refusal as RuleRefusal } from '@ullage/roster';
import { dayWords } from '@ullage/units';
import type { Instant } from '@ullage/units';
import { notFound, refuseField, toDate, toInstant } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { HELD, asCertificate, asProposed, dutyWindows, stopsOf } from '../visits/placing.ts';
import { closeUnfit } from '../visits/unfit.ts';

type Body = CommandBody<'place-visit'>;

/** Puts a visit on somebody's day. Of two who place one visit at once, one wins and the other is told who and when. */
export async function placeVisit(desk: Case, { body }: Received<Body>): Promise<void> {
  const { tx, tenantId } = desk;
  await lock(tx, tenantId, { visitId: body.visitId });
  const visit = await tx.visit.findUnique({
    where: { tenantId_id: { tenantId, id: body.visitId } },
    include: { site: true, visitCircuits: { include: { circuit: true } }, visitPersons: { include: { person: true } } },
  });
  if (!visit) throw notFound();
  if (visit.version !== body.version) throw stale(desk, visit);
  if (!['proposed', 'placed'].includes(visit.state))
    throw refuseField('visitId', 'Visit: already under way or closed; it cannot be moved.');
  const startsAt = momentAt(desk, body, visit.site.timeZone);
  const personIds = [body.personId, ...(body.withPersonIds ?? [])];
  const found = await tx.person.findMany({
    where: { tenantId, id: { in: personIds }, active: true },
    include: { certificates: HELD },
  });
  if (found.length !== new Set(personIds).size) throw notFound();
  // Spoken of in the order in which they were named.
  const people = found.sort((a, b) => personIds.indexOf(a.id) - personIds.indexOf(b.id));
  const papers = people.map((person) => ({
    personId: person.id,
    certificates: person.certificates.map(asCertificate),
  }));
  const stops = await stopsOf(tx, tenantId, personIds);
  const duties = await dutyWindows(tx, tenantId, visit.id);
  const against: Against[] = [];
  for (const person of papers) {
    const proposal: Proposal = {
      visit: asProposed(visit, duties),
      person,
      others: papers.filter((other) => other.personId !== person.personId),
      startsAt,
      minutes: body.minutes,
      stops,
      now: desk.recordedAt,
      zone: visit.site.timeZone,
      calendar: desk.world.calendar,
    };
    const answer = mayPlace(proposal);
    for (const warning of answer.warnings) desk.ask(warning.code, warning.text);
    if (!answer.ok) against.push(...answer.refusals.map((refusal) => ({ personId: person.personId, refusal })));
  }
  const named = people.length < 2 ? undefined : new Map(people.map(({ id, name }) => [id, name]));
  refuseUnlessBent(against, body.override, named);
  await write(desk, body, { startsAt, personIds, bent: new Set(against.map(({ refusal }) => refusal.code)) });
}

/** The instant of the wall-clock time at the site. @throws Refusal for a time that does not exist, or exists twice */
function momentAt(desk: Case, body: Body, zone: string): Instant {
  const local = desk.world.calendar.at(body.day, body.time, zone);
  if (local.ok) return local.instant;
  if (local.fault === 'does-not-exist') {
    throw refuseField('time', `Time: ${body.time} does not exist that day, clocks go forward; choose another.`);
  }
  if (body.which === undefined) {
    throw refuseField('which', `Time: ${body.time} comes twice that day, clocks go back; say earlier or later.`);
  }
  return local[body.which];
}

/** What a rule has against one of those who would go. */
interface Against {
  readonly personId: string;
  readonly refusal: RuleRefusal;
}
type Override = NonNullable<Body['override']>;
const reasonFor = (override: Override | undefined, code: string): string | undefined => {
  const rule = OVERRIDE_RULES.find((one) => one === code);
  return rule && override?.[rule];
};

/**
 * All that stands against the moment is said at once, over everybody who would go, so that nobody is asked twice.
 * @throws Refusal unless each rule may be bent and has its reason
 */
function refuseUnlessBent(
  against: readonly Against[],
  override: Override | undefined,
  named: ReadonlyMap<string, string> | undefined,
): void {
  const standing = against.filter(
    ({ refusal }) => !refusal.overridable || reasonFor(override, refusal.code) === undefined,
  );
  const said = ({ personId, refusal }: Against): string =>
    named === undefined ? refusal.text : `${named.get(personId)}: ${refusal.text}`;
  const byRule = Map.groupBy(standing, ({ refusal }) => refusal.code);
  const rules = [...byRule.values()].flatMap((same) => ruleOf(same, said));
  // The law speaks first: what cannot be bent is said before what can.
  rules.sort((a, b) => Number(a.overridable) - Number(b.overridable));
  const [first] = rules;
  if (!first) return;
  throw new Refusal('rule-forbids', first.text, {
    errors: rules.map(({ text }) => ({ pointer: '#/body/time', detail: text })),
    rules,
  });
}

/** One rule, with all it has against the people; what would work instead is said where there is one answer to it. */
function ruleOf(same: readonly Against[], said: (one: Against) => string): BrokenRule[] {
  const [first] = same;
  if (!first) return [];
  const { code, whose, overridable, clause } = first.refusal;
  const instead = new Set(same.map(({ refusal }) => refusal.insteadText));
  const [only] = instead;
  return [
    {
      code,
      whose,
      overridable,
      // Two stops of one person, or one rule for two people: each is said once.
      text: [...new Set(same.map(said))].join(' '),
      ...(clause === undefined ? {} : { clause }),
      ...(only === undefined || instead.size > 1 ? {} : { instead: only }),
    },
  ];
}

type Standing = { plannedStart: Date | null; site: { timeZone: string }; visitPersons: { person: { name: string } }[] };
/** Names the winner and the time, so that the other knows what to do without asking. */
function stale(desk: Case, visit: Standing): Refusal {
  const names = visit.visitPersons.map((row) => row.person.name).join(' and ');
  if (names === '' || visit.plannedStart === null)
    return new Refusal('stale', 'Somebody changed this visit; look at it again.');
  const at = toInstant(visit.plannedStart);
  const { calendar } = desk.world;
  const zone = visit.site.timeZone;
  return new Refusal(
    'stale',
    `Placed already: ${names}, ${dayWords(calendar.dayOf(at, zone))}, ${calendar.timeOf(at, zone)}.`,
  );
}

async function write(
  desk: Case,
  body: Body,
  { startsAt, personIds, bent }: { startsAt: Instant; personIds: string[]; bent: ReadonlySet<string> },
): Promise<void> {
  const { tx, tenantId } = desk;
  const placedAt = toDate(desk.recordedAt);
  const placed = await tx.visit.updateMany({
    where: { tenantId, id: body.visitId, version: body.version },
    data: { state: 'placed', plannedStart: toDate(startsAt), plannedMinutes: body.minutes, version: { increment: 1 } },
  });
  if (placed.count !== 1) throw new Refusal('stale', 'Somebody changed this visit; look at it again.');
  await tx.visitPerson.deleteMany({ where: { tenantId, visitId: body.visitId } });
  await tx.visitPerson.createMany({
    data: personIds.map((personId) => ({
      tenantId,
      visitId: body.visitId,
      personId,
      placedBy: desk.actor.userId,
      placedAt,
    })),
  });
  await tx.visitOverride.deleteMany({ where: { tenantId, visitId: body.visitId } });
  await tx.visitOverride.createMany({
    // A reason for a rule that turned out not to stand against the moment is none.
    data: OVERRIDE_RULES.filter((rule) => bent.has(rule)).flatMap((rule) => {
      const reason = body.override?.[rule];
      const kept = { tenantId, visitId: body.visitId, rule, givenBy: desk.actor.userId, givenAt: placedAt };
      return reason === undefined ? [] : [{ ...kept, reason }];
    }),
  });
  await closeUnfit(desk, [body.visitId], 'placed-anew');
  desk.changed('visit', body.visitId);
}

/** Takes a visit off the plan; it is proposed again. */
export async function unplaceVisit(desk: Case, { body }: Received<CommandBody<'unplace-visit'>>): Promise<void> {
  const { tx, tenantId } = desk;
  await lock(tx, tenantId, { visitId: body.visitId });
  const taken = await tx.visit.updateMany({
    where: { tenantId, id: body.visitId, version: body.version, state: 'placed' },
    data: { state: 'proposed', plannedStart: null, version: { increment: 1 } },
  });
  if (taken.count !== 1) {
    const there = await tx.visit.count({ where: { tenantId, id: body.visitId } });
    throw there === 0 ? notFound() : new Refusal('stale', 'Somebody changed this visit; look at it again.');
  }
  await tx.visitPerson.deleteMany({ where: { tenantId, visitId: body.visitId } });
  await tx.visitOverride.deleteMany({ where: { tenantId, visitId: body.visitId } });
  await closeUnfit(desk, [body.visitId], 'no-longer-so');
  desk.changed('visit', body.visitId);
}
