import type { CylinderView, MeView } from '@ullage/contracts';
import { MASS_UNITS, type MassUnit } from '@ullage/units';
import type { Route } from 'next';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { ShareBar } from '../../pictures/share-bar.tsx';
import { State } from '../../ui/state.tsx';
import { Table } from '../../ui/table.tsx';
import { Landing } from '../landing.tsx';
import { cylinderPath, statementPath } from '../link-to.ts';
import { aboutWords, atMostWords, gramsWords, massWords } from '../masses.ts';
import { RefreshOnChange } from '../refresh-on-change.tsx';
import { Section } from '../section.tsx';
import { monthWords } from '../when.ts';
import css from '../office.module.css';
import { AirChecksSection } from './air-checks-section.tsx';
import { CustodySection } from './custody-section.tsx';
import { CylinderActions } from './cylinder-actions.tsx';
import { DoubtsSection } from './doubts-section.tsx';
import { FitnessSection } from './fitness-section.tsx';
import { SectionPanel } from './section-panel.tsx';
import { MovementTable } from '../statement/movement-table.tsx';
import { AWAY_WORDS, KIND_WORDS, limitWords, percentWords, sharesWords } from './words.ts';

const unitOf = (text: string): MassUnit => MASS_UNITS.find((unit) => unit === text) ?? 'lb';

/** `R-448A, 31 lb net, recovered, owned by this firm`; of mixed gas the shares, and every state and owner. */
function Inside({ view: { cylinder, contents, composition }, unit }: { view: CylinderView; unit: MassUnit }) {
  const { netGrams, refrigerant, mixed } = cylinder;
  if (netGrams === 0)
    return (
      <>
        <b>empty</b>
        {refrigerant !== null && <>, for {refrigerant}</>}
      </>
    );
  const states = [...new Set(contents.map(({ state }) => state.replaceAll('-', ' ')))].join(', ');
  const owners = [...new Set(contents.map(({ owner }) => owner ?? 'this firm'))].join(', ');
  return (
    <>
      <b>{mixed ? sharesWords(composition) : refrigerant}</b>
      {mixed && ' by mass'}, {aboutWords(netGrams, unit)} net, {states}, owned by {owners}
    </>
  );
}

function Stamps({ view, unit }: { view: CylinderView; unit: MassUnit }) {
  const { cylinder } = view;
  return (
    <>
      {cylinder.label !== null && (
        <li>
          serial <span className="id">{cylinder.serial}</span>
        </li>
      )}
      <li>
        {cylinder.specification}, water capacity {aboutWords(view.waterCapacityKg * 1000, unit)}, tare{' '}
        {massWords(view.tare)}
        {view.servicePressurePsig !== null && <>, service pressure {view.servicePressurePsig} psig</>}
      </li>
      <li>
        {view.requalifyBy === null ? (
          'next test not known'
        ) : (
          <>
            retest by <b>{monthWords(view.requalifyBy)}</b>
          </>
        )}
        {view.testedMonth !== null && <>, tested {monthWords(view.testedMonth)}</>}
      </li>
      <li>cylinder of {cylinder.owner ?? 'this firm'}</li>
      {cylinder.place !== null && (
        <li>
          kept at <b>{cylinder.place.name}</b>
        </li>
      )}
      <li>
        <Link href={`${cylinderPath(cylinder.id)}/label` as Route}>label to print</Link>
      </li>
    </>
  );
}

function Head({ view, unit, children }: { view: CylinderView; unit: MassUnit; children: ReactNode }) {
  const { cylinder } = view;
  return (
    <header className={css['head']}>
      <div className={css['title']}>
        <h1>
          <span className="id">{cylinder.label ?? cylinder.serial}</span> {KIND_WORDS[cylinder.kind]}
        </h1>
        <div className={css['standing']}>
          {cylinder.away !== null && (
            <State mark={cylinder.away === 'lost' ? 'unsure' : 'half'}>{AWAY_WORDS[cylinder.away]}</State>
          )}
          {cylinder.mixed && <State mark="refused">Mixed gas</State>}
          {cylinder.doubtText !== null && <State mark="unsure">{cylinder.doubtText}</State>}
          {children}
        </div>
      </div>
      <ul className={css['facts']}>
        <li>
          <Inside view={view} unit={unit} />
        </li>
        <Stamps view={view} unit={unit} />
      </ul>
    </header>
  );
}

/** How much more may go in, rounded down; or how much too much is in it; or why neither can be said. */
function RoomClaim({ view, unit }: { view: CylinderView; unit: MassUnit }) {
  const { roomKg, grossLimitKg, cylinder } = view;
  if (roomKg === null || grossLimitKg === null)
    return (
      <p className={css['claim']}>
        <b>No limit can be given</b>
        {cylinder.refrigerant === null
          ? ' until it is known which gas goes in.'
          : ': no rule here covers this gas in it.'}
      </p>
    );
  const gross = atMostWords(grossLimitKg * 1000, unit);
  return roomKg < 0 ? (
    <p className={css['claim']}>
      <b>{aboutWords(-roomKg * 1000, unit)} over its legal fill</b>, which is {gross} on the scale.
    </p>
  ) : (
    <p className={css['claim']}>
      <b>{atMostWords(roomKg * 1000, unit)} of room</b>, rounded down: fill to {gross} on the scale, no more.
    </p>
  );
}

function Room({ view, unit }: { view: CylinderView; unit: MassUnit }) {
  const { limitText, mayFill, whyNot } = view;
  return (
    <Section id="room" title="Room">
      <RoomClaim view={view} unit={unit} />
      {limitText !== null && <p className="quiet">The limit: {limitWords(limitText)}.</p>}
      {mayFill && (
        <p>
          <State mark="fine">May be filled</State>: nothing about its stamps, date or gas forbids it.
        </p>
      )}
      {whyNot.length > 0 && (
        <>
          <State mark="refused">May not be filled</State>
          <ul className={css['reasons']}>
            {whyNot.map((one) => (
              <li key={one.code}>
                {one.text} {one.clause !== null && <cite>{one.clause}</cite>}
              </li>
            ))}
          </ul>
        </>
      )}
    </Section>
  );
}

/** Shares by mass, whoever owns what; a second gas is said before anything else. */
function Composition({ view: { composition, cylinder } }: { view: CylinderView }) {
  if (composition.length < 2) return null;
  return (
    <>
      <p className={cylinder.mixed ? css['claim'] : undefined}>
        {cylinder.mixed ? <State mark="refused">Mixed</State> : 'Not mixed'}: {sharesWords(composition)} by mass
        {cylinder.mixed ? '. It goes into no circuit.' : '; up to 0.5 % of another gas counts as none.'}
      </p>
      <ShareBar
        parts={composition.map(({ refrigerant, percent }) => ({ text: refrigerant, share: percent / 100 }))}
        label={`Shares by mass: ${sharesWords(composition)}`}
      />
    </>
  );
}

function Contents({ view }: { view: CylinderView }) {
  const { contents, composition } = view;
  const percentOf = (refrigerant: string): number =>
    composition.find((part) => part.refrigerant === refrigerant)?.percent ?? 0;
  return (
    <Section id="contents" title="What is in it">
      <Composition view={view} />
      <Table
        caption="Contents by owner and state"
        rows={contents}
        keyOf={(one) => `${one.refrigerant}${one.owner ?? ''}${one.state}`}
        empty={<p>Nothing, by the books.</p>}
        columns={[
          { id: 'gas', head: 'Gas', cell: (one) => one.refrigerant },
          { id: 'share', head: 'Of the mass', right: true, cell: (one) => percentWords(percentOf(one.refrigerant)) },
          {
            id: 'state',
            head: 'State',
            cell: (one) => <span className={css['keep']}>{one.state.replaceAll('-', ' ')}</span>,
          },
          { id: 'owner', head: 'Owner of the gas', cell: (one) => one.owner ?? 'this firm' },
          { id: 'grams', head: 'Grams', right: true, cell: (one) => gramsWords(one.grams) },
        ]}
      />
    </Section>
  );
}

function Movements({ view, zone }: { view: CylinderView; zone: string }) {
  const { movements, moreMovements, accountId } = view;
  return (
    <Section id="movements" title="Movements, the latest first" note="a corrected one stays, struck through">
      <MovementTable
        caption="Movements in and out"
        lines={[...movements].reverse()}
        zone={zone}
        showGas={new Set(movements.map(({ refrigerant }) => refrigerant)).size > 1}
        empty={<p>Nothing has moved in or out yet.</p>}
      />
      {movements.length > 0 && (
        <p>
          <Link href={statementPath(accountId)}>{moreMovements ? 'Earlier movements' : 'The statement'}</Link>
          <span className="quiet">, from the first gram to what is in it now</span>
        </p>
      )}
    </Section>
  );
}

export interface CylinderPageProps {
  readonly view: CylinderView;
  readonly tenant: MeView['tenant'];
  readonly mayHandle: boolean;
  readonly mayRecall: boolean;
  /** Every gas that can be named. */
  readonly refrigerants: readonly string[];
}

/** One cylinder: what is in it and what that is fit for, how much more may go in, what is doubtful, and where its gas went. */
export function CylinderPage({ view, tenant, mayHandle, mayRecall, refrigerants }: CylinderPageProps) {
  const unit = unitOf(tenant.massUnit);
  const zone = tenant.timeZone;
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <Landing />
      <Head view={view} unit={unit}>
        {mayHandle && <CylinderActions {...{ view, unit, zone, refrigerants, mayRecall }} />}
      </Head>
      <div className={css['cut']}>
        <div>
          <SectionPanel view={view} unit={unit} />
          <Room view={view} unit={unit} />
        </div>
        <div>
          <FitnessSection view={view} />
          <Contents view={view} />
        </div>
        <div>
          <AirChecksSection view={view} zone={zone} />
          <DoubtsSection view={view} zone={zone} />
          <CustodySection view={view} zone={zone} mayHandle={mayHandle} />
        </div>
      </div>
      <div className={css['across']}>
        <Movements view={view} zone={zone} />
      </div>
    </main>
  );
}
