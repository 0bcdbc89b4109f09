/** What the law refuses. None of it can be overridden. */
import { dayWords } from '@ullage/units';
import type { Calendar } from '@ullage/units';
import { APPRENTICE_CLAUSE, apprenticeshipOf, demandOf, holds } from './certificates.ts';
import type { Demand } from './certificates.ts';
import { localText } from './proposal.ts';
import type { Moment, Proposal, Refusal, RefusalCode, Timing } from './proposal.ts';
import { UNKNOWN_TRAVEL_MINUTES } from './travel.ts';
import { lawfulWindow } from './window.ts';
import type { LawfulWindow } from './window.ts';

const law = (code: RefusalCode, text: string, more: { clause?: string; insteadText?: string } = {}): Refusal => ({
  code,
  whose: 'law',
  text,
  overridable: false,
  ...more,
});

/** Certificates and apprenticeship, for each kind of circuit on the visit. */
export function certificateRefusals(proposal: Proposal, moment: Moment): Refusal[] {
  const { visit } = proposal;
  // 40 CFR 82.157(d) and (g): leak inspections after a rate over the threshold are a certified technician's.
  if (!visit.opensCircuit && visit.purpose !== 'inspection') return [];
  const demands = new Map<string, Demand>();
  for (const circuit of visit.circuits) {
    const demand = demandOf(circuit);
    if (demand !== undefined) demands.set(demand.about, demand);
  }
  const found = new Map<string, Refusal>();
  for (const demand of demands.values()) {
    const refusal = certificateRefusal(proposal, moment, demand);
    if (refusal !== undefined) found.set(`${refusal.code} ${refusal.text}`, refusal);
  }
  return [...found.values()];
}

function certificateRefusal(proposal: Proposal, moment: Moment, demand: Demand): Refusal | undefined {
  const { certificates } = proposal.person;
  // A visit over midnight needs papers that hold to its end.
  const onDays = [moment.startDay, moment.endDay];
  const stand = onDays.map((day) => holds(certificates, demand, day)).find((on) => on.state !== 'yes');
  if (stand === undefined) return undefined;
  const apprentice = apprenticeRefusal(proposal, moment, demand);
  if (apprentice !== 'no-apprentice') return apprentice;
  const { clause, words, about } = demand;
  const insteadText = `Choose somebody with ${words}.`;
  switch (stand.state) {
    case 'ended':
      return law('certificate-ended', `The certificate for ${about} ended on ${dayWords(stand.day)}.`, {
        clause,
        insteadText,
      });
    case 'not-yet':
      return law('certificate-not-yet', `The certificate for ${about} holds only from ${dayWords(stand.day)}.`, {
        clause,
        insteadText,
      });
    case 'none':
      return law('no-certificate', `No certificate for ${about}: the law asks ${words}.`, { clause, insteadText });
  }
}

function apprenticeRefusal(proposal: Proposal, moment: Moment, demand: Demand): Refusal | undefined | 'no-apprentice' {
  const clause = APPRENTICE_CLAUSE;
  const paper = apprenticeshipOf(proposal.person.certificates, moment.endDay, proposal.calendar);
  const insteadText = `Choose somebody with ${demand.words}.`;
  switch (paper.state) {
    case 'not-registered':
      return 'no-apprentice';
    case 'undated':
      return law(
        'apprenticeship-undated',
        'Apprentice without a date of registering: the two years cannot be counted.',
        {
          clause,
          insteadText: 'Enter the day of first registering.',
        },
      );
    case 'not-yet':
      return law('certificate-not-yet', `Registered as an apprentice only from ${dayWords(paper.registeredOn)}.`, {
        clause,
        insteadText,
      });
    case 'over':
      return law(
        'apprenticeship-over',
        `The apprenticeship ended on ${dayWords(paper.lastDay)}: the law allows two years at most.`,
        {
          clause,
          insteadText,
        },
      );
    case 'current':
      return isSupervised(proposal, moment, demand)
        ? undefined
        : law(
            'apprentice-alone',
            'An apprentice works only beside a certified technician, on the same visit, all the time.',
            {
              clause,
              insteadText: `Place somebody with ${demand.words} on this visit too.`,
            },
          );
  }
}

/** One technician must cover the apprentice's whole time: "continual" leaves no gap between two. */
function isSupervised({ others, calendar, person, ...proposal }: Proposal, moment: Moment, demand: Demand): boolean {
  return others.some((other) => {
    if (other.personId === person.personId) return false;
    const from = calendar.epochMs(other.startsAt ?? proposal.startsAt);
    const to = from + (other.minutes ?? proposal.minutes) * 60_000;
    const there = from <= moment.startMs && to >= moment.endMs;
    return (
      there && [moment.startDay, moment.endDay].every((on) => holds(other.certificates, demand, on).state === 'yes')
    );
  });
}

/** The window of the visit's duties, from their first instant to the legal edge. */
export function windowOf(
  proposal: Pick<Proposal, 'calendar' | 'minutes' | 'visit' | 'zone'>,
): LawfulWindow | undefined {
  const { calendar, minutes, visit, zone } = proposal;
  return lawfulWindow({ duties: visit.duties, minutes, zone }, calendar);
}

/** Nobody leaving now could still end by the edge: then late is all there is, and the sooner the better. */
export function isPastSaving(window: LawfulWindow, proposal: Pick<Proposal, 'now'>, calendar: Calendar): boolean {
  return calendar.epochMs(proposal.now) + UNKNOWN_TRAVEL_MINUTES * 60_000 > calendar.epochMs(window.latestStartAt);
}

/** Before the window the work does not count; after the edge it is late, which nobody may plan while in time is possible. */
export function windowRefusals(proposal: Timing, moment: Moment, window: LawfulWindow | undefined): Refusal[] {
  if (window === undefined) return [];
  const { calendar } = proposal;
  const late = moment.endMs > calendar.epochMs(window.dueAt);
  if (late && !isPastSaving(window, proposal, calendar)) {
    const lastMs = calendar.epochMs(window.latestStartAt);
    return [
      law('after-legal-edge', `Ends after the last legal day, ${dayWords(window.lastDay)}.`, {
        ...(window.dueClause ? { clause: window.dueClause } : {}),
        insteadText: `Start by ${localText(lastMs, proposal)}.`,
      }),
    ];
  }
  // Where the windows do not meet, the earliest edge rules: an opening beyond it must not drive the visit past it.
  const opensMs = window.opensAt === null || !window.fits ? null : calendar.epochMs(window.opensAt);
  if (opensMs !== null && moment.startMs < opensMs)
    return [
      law('before-lawful-window', `Too early to count: the window opens ${localText(opensMs, proposal)}.`, {
        ...(window.opensClause ? { clause: window.opensClause } : {}),
        insteadText: `Start from ${localText(opensMs, proposal)}.`,
      }),
    ];
  return [];
}
