/**
 * Who may open a circuit in the United States. 40 CFR 82.161(a): Type I for small appliances; Type II for medium, high and
 * very high pressure (not small, not motor vehicle); Type III for low pressure; Universal for all of these. Motor vehicle
 * air conditioning itself asks a section 609 certificate (40 CFR 82.34(a)); what is like it, Type II or that one.
 */
import type { Calendar, Day } from '@ullage/units';

export type PressureClass = 'low' | 'medium' | 'high' | 'very-high';
export type ApplianceKind = 'stationary' | 'small' | 'mvac' | 'mvac-like';

export interface Certificate {
  /** `us-608` or `us-609`; certificates of other schemes open nothing here. */
  readonly scheme: string;
  /** Under `us-608`: `I`, `II`, `III`, `universal` or `apprentice`. */
  readonly type: string;
  readonly registeredOn?: Day | null | undefined;
  /** The last day on which it holds. Section 608 certificates do not end; other schemes' do. */
  readonly endsOn?: Day | null | undefined;
}
export interface CircuitWork {
  readonly appliance: ApplianceKind;
  /** Null for gas that no certificate is asked for, such as CO2. */
  readonly pressureClass: PressureClass | null;
}
export interface Demand {
  /** Any one of these, as `scheme:type`. */
  readonly anyOf: readonly string[];
  /** "Type II or Universal" */
  readonly words: string;
  /** "high-pressure gas" */
  readonly about: string;
  readonly clause: string;
}

const TYPE_I = 'us-608:I';
const TYPE_II = 'us-608:II';
const TYPE_III = 'us-608:III';
const UNIVERSAL = 'us-608:universal';
const SECTION_609 = 'us-609:609';
const CLAUSE_608 = '40 CFR 82.161(a)';

/** What the law asks of whoever opens this circuit; undefined when nothing. */
export function demandOf({ appliance, pressureClass }: CircuitWork): Demand | undefined {
  if (pressureClass === null) return undefined;
  switch (appliance) {
    case 'small':
      return {
        anyOf: [TYPE_I, UNIVERSAL],
        words: 'Type I or Universal',
        about: 'small appliances',
        clause: CLAUSE_608,
      };
    case 'mvac':
      return {
        anyOf: [SECTION_609],
        words: 'a section 609 certificate',
        about: 'vehicle air conditioning',
        clause: '40 CFR 82.34(a)',
      };
    case 'mvac-like':
      return {
        anyOf: [TYPE_II, UNIVERSAL, SECTION_609],
        words: 'Type II, Universal or section 609',
        about: 'vehicle-like air conditioning',
        clause: CLAUSE_608,
      };
    case 'stationary':
      return pressureClass === 'low'
        ? {
            anyOf: [TYPE_III, UNIVERSAL],
            words: 'Type III or Universal',
            about: 'low-pressure gas',
            clause: CLAUSE_608,
          }
        : {
            anyOf: [TYPE_II, UNIVERSAL],
            words: 'Type II or Universal',
            about: `${pressureClass}-pressure gas`,
            clause: CLAUSE_608,
          };
  }
}

const fits = (certificate: Certificate, demand: Demand): boolean =>
  demand.anyOf.includes(`${certificate.scheme}:${certificate.type}`);

const isCurrent = (certificate: Certificate, on: Day): boolean =>
  (!certificate.registeredOn || certificate.registeredOn <= on) && (!certificate.endsOn || on <= certificate.endsOn);

export type Standing =
  { readonly state: 'yes' } | { readonly state: 'none' } | { readonly state: 'ended' | 'not-yet'; readonly day: Day };

/** How a person stands to one demand on a day. `ended` and `not-yet` speak of a certificate that would otherwise do. */
export function holds(certificates: readonly Certificate[], demand: Demand, on: Day): Standing {
  const fitting = certificates.filter((certificate) => fits(certificate, demand));
  if (fitting.some((certificate) => isCurrent(certificate, on))) return { state: 'yes' };
  const [one] = fitting;
  if (one === undefined) return { state: 'none' };
  if (one.endsOn && one.endsOn < on) return { state: 'ended', day: one.endsOn };
  return one.registeredOn ? { state: 'not-yet', day: one.registeredOn } : { state: 'none' };
}

export const APPRENTICE_CLAUSE = '40 CFR 82.152, "Apprentice"; 82.161(a)';
const APPRENTICE_YEARS = 2;

export type Apprenticeship =
  | { readonly state: 'not-registered' | 'undated' }
  | { readonly state: 'current' | 'over' | 'not-yet'; readonly registeredOn: Day; readonly lastDay: Day };

/**
 * Registered apprentices may work under close and continual supervision of a certified technician, for two years from
 * first registering: a later registration does not start them again. The last day is the one before the anniversary.
 * The definition in 40 CFR 82.152 is cited from memory.
 */
export function apprenticeshipOf(certificates: readonly Certificate[], on: Day, calendar: Calendar): Apprenticeship {
  const papers = certificates.filter(({ scheme, type }) => scheme === 'us-608' && type === 'apprentice');
  if (papers.length === 0) return { state: 'not-registered' };
  const days = papers.flatMap(({ registeredOn }) => (registeredOn ? [registeredOn] : [])).sort();
  const [registeredOn] = days;
  if (registeredOn === undefined) return { state: 'undated' };
  const byLaw = calendar.addDays(calendar.addYears(registeredOn, APPRENTICE_YEARS), -1);
  const ends =
    papers
      .map(({ endsOn }) => endsOn ?? byLaw)
      .sort()
      .at(-1) ?? byLaw;
  const lastDay = ends < byLaw ? ends : byLaw;
  const state = on < registeredOn ? 'not-yet' : on > lastDay ? 'over' : 'current';
  return { state, registeredOn, lastDay };
}
