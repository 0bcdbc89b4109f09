import type { LeakRateSheetView } from '@ullage/contracts';
import { dayName, dayWords, localTime } from '../../lib/local-time.ts';
import { OverLimitBar } from '../../pictures/over-limit-bar.tsx';
import { Sheet, SheetLines, SheetSection } from '../../ui/sheet.tsx';
import { Shape } from '../../ui/state.tsx';
import { isShort, pointsApart, sumLines } from './sheet-lines.ts';
import css from './papers.module.css';

type Parts = { readonly sheet: LeakRateSheetView };
const mass = ({ value, unit }: { value: string; unit: string }): string => `${value} ${unit}`;
/** Each source once, in the order it is first needed. */
const sources = (of: readonly { readonly source: string }[]): string[] => [...new Set(of.map(({ source }) => source))];

function WentIn({ sheet }: Parts) {
  const { calculation: made } = sheet;
  const days = made.substituted ? 'Days that count: the whole period of the rule' : 'Days since the last addition';
  return (
    <SheetSection
      title="What went in"
      margin={
        <>
          <p>Masses as entered; pounds are not rounded through grams.</p>
          <p>Full charge: {sheet.fullChargeText}.</p>
          <p>Days in {sheet.site.timeZone}.</p>
        </>
      }
    >
      <SheetLines
        caption="What went in"
        lines={[
          { mark: '1', text: `Added on ${dayWords(made.onDay)}, net of the visit`, value: mass(made.leakMass) },
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
  const side = made.over ? 'over' : 'not over';
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
      <SheetLines caption="The arithmetic" lines={sumLines(made, 5)} />
      <div className={css['limit']}>
        <OverLimitBar
          value={rate}
          limit={made.thresholdPercent}
          over={made.over}
          valueText={made.ratePercent}
          unit="%"
          label={`${made.ratePercent} % a year, ${side} the limit of ${made.thresholdPercent} %.`}
        />
      </div>
    </SheetSection>
  );
}

function Verdict({ sheet }: Parts) {
  const { calculation: made, duties } = sheet;
  const apart = pointsApart(made.ratePercent, made.thresholdPercent);
  const disagree = made.alternative !== null && made.alternative.over !== made.over;
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
        {disagree && (
          <p>
            <Shape mark="unsure" size={13} /> <b>The two readings of the rule give different verdicts; see below.</b>
          </p>
        )}
        <p>
          <Shape mark={made.over ? 'over' : 'under'} size={13} />{' '}
          <b>{made.over ? 'Over the limit' : 'Not over the limit'}</b>
          {`, by ${apart} points. The law compares by \u201cexceeds\u201d; equal is not over.`}
        </p>
        {duties.length > 0 && <p>What the law asks after it:</p>}
        {duties.length > 0 && (
          <ul>
            {duties.map((duty) => (
              <li key={duty.key + duty.title}>
                {duty.title}
                {duty.dueOn === null ? ', no date yet' : ' by '}
                {duty.dueOn !== null && <b>{dayWords(duty.dueOn)}</b>}
                {duty.provisional && ' (provisional)'}
                {duty.state.startsWith('discharged') && `, done${duty.state === 'discharged-late' ? ', late' : ''}`}
              </li>
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
          <p>Rulebook version {made.rulebookVersion}.</p>
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
  const verdict = `${made.ratePercent} % a year: ${made.over ? 'over' : 'not over'} the ${made.thresholdPercent} % of ${sheet.useText}.`;
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
          {sheet.unitText} at {site.name}, {site.address}, after the addition of {dayName(made.onDay)}{' '}
          {made.onDay.slice(0, 4)}. <b>{verdict}</b>
        </>
      }
      signatures={[
        { who: 'Technician', what: 'weights and readings are as I took them' },
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
