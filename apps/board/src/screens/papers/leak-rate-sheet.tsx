import type { LeakRateSheetView } from '@ullage/contracts';
import { dayName, dayWords, localTime } from '../../lib/local-time.ts';
import { OverLimitBar } from '../../pictures/over-limit-bar.tsx';
import { FactName } from '../../office/fact-name.tsx';
import { siteWords } from '../../office/site-words.ts';
import { Sheet, SheetLines, SheetSection } from '../../ui/sheet.tsx';
import { Shape } from '../../ui/state.tsx';
import { grossLines, isShort, pointsApart, sumLines } from './sheet-lines.ts';
import css from './papers.module.css';

type Parts = { readonly sheet: LeakRateSheetView };
type Made = LeakRateSheetView['calculation'];
const mass = ({ value, unit }: { value: string; unit: string }): string => `${value} ${unit}`;
/** Each source once, in the order it is first needed. */
const sources = (of: readonly { readonly source: string }[]): string[] => [...new Set(of.map(({ source }) => source))];

const peopleWords = (people: LeakRateSheetView['technicians']): string =>
  people.map(({ name, certificates }) => `${name} (${certificates})`).join(', ');

/** More than these would push the sheet off its paper; all of them are on the unit's page and in the books. */
const SHOWN_FACTS = 4;
/** Who weighed, and what: an addition rests on weighings, or on what somebody told. */
function Evidence({ sheet }: Parts) {
  return (
    <div className={css['notes']}>
      {sheet.technicians.length > 0 ? (
        <p>Technician: {peopleWords(sheet.technicians)}.</p>
      ) : (
        <p>Weighed by nobody of this firm: told when the call was taken.</p>
      )}
      {sheet.facts.slice(-SHOWN_FACTS).map((fact) => (
        <p key={fact.id}>
          From the <FactName fact={fact} />.
        </p>
      ))}
      {sheet.facts.length > SHOWN_FACTS && <p>And {sheet.facts.length - SHOWN_FACTS} earlier ones.</p>}
      <p>Masses as entered; pounds are not rounded through grams.</p>
      <p>Full charge: {sheet.fullChargeText}.</p>
      <p>Days in {sheet.site.timeZone}.</p>
    </div>
  );
}

/** The first line of the arithmetic; the lines before it are what went in. */
const SUM_FROM = 5;
const grossOf = (made: Made) =>
  made.alternative ? grossLines({ ...made, alternative: made.alternative }, SUM_FROM) : undefined;

function WentIn({ sheet }: Parts) {
  const { calculation: made } = sheet;
  const rolling = made.method === 'rolling';
  const added = rolling
    ? `Added in the ${made.days} days to ${dayWords(made.onDay)}, net of each visit`
    : `Added on ${dayWords(made.onDay)}, net of the visit`;
  const since = rolling ? 'Days of the window' : 'Days since the last addition';
  const days = made.substituted ? 'Days that count: the whole period of the rule' : since;
  const gross = grossOf(made)?.added;
  return (
    <SheetSection title="What went in" margin={<Evidence sheet={sheet} />}>
      <SheetLines
        caption="What went in"
        lines={[
          { mark: '1', text: added, value: mass(made.leakMass) },
          ...(gross ? [gross] : []),
          { mark: '2', text: `Full charge of ${sheet.refrigerant}`, value: mass(made.fullCharge) },
          { mark: '3', text: days, value: String(made.days) },
          { mark: '4', text: `Limit for its use, ${sheet.useText}`, value: `${made.thresholdPercent} %` },
        ]}
      />
    </SheetSection>
  );
}

function Arithmetic({ sheet }: Parts) {
  const { calculation: made } = sheet;
  const rate = Number(made.ratePercent);
  const gross = grossOf(made)?.rate;
  return (
    <SheetSection
      title="The arithmetic"
      margin={
        <div className={css['notes']}>
          <p>
            {made.clause}, {made.method === 'rolling' ? 'rolling average' : 'annualizing'}; the method of all appliances
            at this facility.
          </p>
          <p>Compared as exact fractions; shown to four places.</p>
          {!isShort(made.exact) && <p>Exactly {made.exact}.</p>}
        </div>
      }
    >
      <SheetLines caption="The arithmetic" lines={[...sumLines(made, SUM_FROM), ...(gross ? [gross] : [])]} />
      <div className={css['limit']}>
        <OverLimitBar
          value={rate}
          limit={made.thresholdPercent}
          over={made.over}
          valueText={made.ratePercent}
          unit="%"
          label={`${made.ratePercent} % a year, ${sideOf(made)} the limit of ${made.thresholdPercent} %.`}
        />
      </div>
    </SheetSection>
  );
}

const sideOf = ({ over }: { readonly over: boolean }): string => (over ? 'over' : 'not over');
/** Two readings of the rule, two verdicts: then that is the first thing to know. */
const disagrees = ({ alternative, over }: Made): boolean => alternative !== null && alternative.over !== over;

/** The other reading of the rule, beside the verdict by the one that is counted. */
function OtherReading({ made }: { made: Made }) {
  if (!made.alternative) return null;
  const { ratePercent, over } = made.alternative;
  return (
    <p>
      <Shape mark="unsure" size={13} /> By gross weight {ratePercent} % a year, <b>{sideOf({ over })} the limit</b>
      {disagrees(made) ? ': the other verdict. ' : ': the same verdict. '}
      Which of the two the rule means is not settled in law; the net is counted here.
    </p>
  );
}

function Duty({ duty }: { duty: LeakRateSheetView['duties'][number] }) {
  const [evidence] = duty.dischargedBy.slice(-1);
  return (
    <li>
      {duty.title}
      {duty.dueOn === null ? ', no date yet' : ' by '}
      {duty.dueOn !== null && <b>{dayWords(duty.dueOn)}</b>}
      {duty.provisional && ' (provisional)'}
      {duty.state.startsWith('discharged') && `, done${duty.state === 'discharged-late' ? ' late' : ''}`}
      {evidence && (
        <>
          {' '}
          by <FactName fact={evidence} />
        </>
      )}
    </li>
  );
}

function Verdict({ sheet }: Parts) {
  const { calculation: made, duties } = sheet;
  const apart = pointsApart(made.ratePercent, made.thresholdPercent);
  return (
    <SheetSection
      title="Verdict"
      margin={
        duties.length > 0 && (
          <div className={css['notes']}>
            <p>{[...new Set(duties.map(({ clause }) => clause))].join('; ')}</p>
            <p>
              Responsible: {[...new Set(duties.map(({ responsible }) => responsible.replaceAll('-', ' ')))].join('; ')}.
            </p>
          </div>
        )
      }
    >
      <div className={css['says']}>
        {disagrees(made) && <OtherReading made={made} />}
        <p>
          <Shape mark={made.over ? 'over' : 'under'} size={13} />{' '}
          <b>{made.over ? 'Over the limit' : 'Not over the limit'}</b>
          {`${made.alternative ? ' by the net' : ''}, by ${apart} points. The law compares by \u201cexceeds\u201d; equal is not over.`}
        </p>
        {!disagrees(made) && <OtherReading made={made} />}
        {duties.length > 0 && <p>What the law asks after it:</p>}
        {duties.length > 0 && (
          <ul>
            {duties.map((duty) => (
              <Duty key={duty.key + duty.title} duty={duty} />
            ))}
          </ul>
        )}
      </div>
    </SheetSection>
  );
}

function Sure({ sheet }: Parts) {
  const { calculation: made } = sheet;
  const said = [...sheet.certain, ...made.reasons];
  const lines = said.filter((one, i) => said.findIndex(({ text }) => text === one.text) === i);
  return (
    <SheetSection
      title="How sure this is"
      margin={
        <div className={css['notes']}>
          {sources(lines).map((source) => (
            <p key={source}>
              {lines
                .map((line, i) => (line.source === source ? String.fromCharCode(97 + i) : ''))
                .filter(Boolean)
                .join(', ')}
              : {source}
            </p>
          ))}
          <p>{made.rulebookTitle}</p>
          <p>Rulebook edition of {dayWords(made.rulebookVersion)}.</p>
        </div>
      }
    >
      <ol className={css['lettered']}>
        {lines.map((line, i) => (
          <li key={line.text}>
            <span>{String.fromCharCode(97 + i)}</span>
            <p>{line.text}</p>
          </li>
        ))}
      </ol>
    </SheetSection>
  );
}

/** One calculation with its reasoning, for the owner or operator. Made from facts, never typed. */
export function LeakRateSheet({ sheet }: Parts) {
  const { calculation: made, site } = sheet;
  const at = localTime(sheet.madeAt, site.timeZone);
  const name = `${sheet.circuitTag}/${made.number}`;
  const limit = `the ${made.thresholdPercent} % of ${sheet.useText}`;
  const verdict = `${made.ratePercent} % a year: ${sideOf(made)} ${limit}.`;
  return (
    <Sheet
      from={sheet.contractor}
      name={`Leak-rate sheet ${name}`}
      title={
        <>
          Leak rate of circuit <span className="id">{sheet.circuitTag}</span>
        </>
      }
      lead={
        <>
          {made.alternative && disagrees(made) && (
            <>
              <b>
                Two readings of the rule, two verdicts: net {made.ratePercent} % a year, {sideOf(made)} {limit}; by
                gross weight {made.alternative.ratePercent} %, {sideOf(made.alternative)} it.
              </b>{' '}
            </>
          )}
          {sheet.unitText} at {siteWords(site)}, after the addition of {dayName(made.onDay)} {made.onDay.slice(0, 4)}.{' '}
          {!disagrees(made) && <b>{verdict}</b>}
        </>
      }
      signatures={[
        {
          who: ['Technician', peopleWords(sheet.technicians)].filter(Boolean).join(': '),
          what: 'weights and readings are as I took them',
        },
        { who: 'For the owner or operator', what: 'full charge and leak rate are the owner\u2019s record' },
      ]}
      foot="Keep for three years. This sheet reasons from what was recorded; local codes and licensed practice rule. Corrected facts make a new sheet and leave this one standing."
      made={`Made ${dayWords(at.day)}, ${at.time}`}
    >
      {!made.standing && (
        <p className={css['old']}>No longer the standing calculation: a corrected fact made a newer one.</p>
      )}
      <WentIn sheet={sheet} />
      <Arithmetic sheet={sheet} />
      <Verdict sheet={sheet} />
      <Sure sheet={sheet} />
    </Sheet>
  );
}
