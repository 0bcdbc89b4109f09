import type { CylinderView, MeView } from '@ullage/contracts';
import { MASS_UNITS, type MassUnit } from '@ullage/units';
import Link from 'next/link';
import { State } from '../../ui/state.tsx';
import { Table } from '../../ui/table.tsx';
import { Landing } from '../landing.tsx';
import { statementPath, visitPath } from '../link-to.ts';
import { aboutWords, atMostWords, gramsWords, massWords } from '../masses.ts';
import { RefreshOnChange } from '../refresh-on-change.tsx';
import { Section } from '../section.tsx';
import { momentWords, monthWords } from '../when.ts';
import css from '../office.module.css';
import { SectionPanel } from './section-panel.tsx';
import { MovementTable } from '../statement/movement-table.tsx';
import { KIND_WORDS, limitWords } from './words.ts';

const unitOf = (text: string): MassUnit => MASS_UNITS.find((unit) => unit === text) ?? 'lb';

function Head({ view, unit }: { view: CylinderView; unit: MassUnit }) {
  const { cylinder } = view;
  return (
    <header className={css['head']}>
      <h1>
        <span className="id">{cylinder.label ?? cylinder.serial}</span> {KIND_WORDS[cylinder.kind]}
      </h1>
      <ul className={css['facts']}>
        <li>
          <b>{cylinder.netGrams === 0 ? 'empty' : cylinder.refrigerant}</b>
          {cylinder.netGrams > 0 && <>, {aboutWords(cylinder.netGrams, unit)} net</>}
          {cylinder.netGrams === 0 && cylinder.refrigerant !== null && <>, for {cylinder.refrigerant}</>}
        </li>
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
          <State mark="fine">May be filled</State>: nothing that is recorded forbids it.
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

function Contents({ contents }: { contents: CylinderView['contents'] }) {
  return (
    <Section id="contents" title="What is in it">
      <Table
        caption="Contents by owner and state"
        rows={contents}
        keyOf={(one) => `${one.refrigerant}${one.owner ?? ''}${one.state}`}
        empty={<p>Nothing, by the books.</p>}
        columns={[
          { id: 'gas', head: 'Gas', cell: (one) => one.refrigerant },
          { id: 'state', head: 'State', cell: (one) => <span className={css['keep']}>{one.state}</span> },
          { id: 'owner', head: 'Owner of the gas', cell: (one) => one.owner ?? 'this firm' },
          { id: 'grams', head: 'Grams', right: true, cell: (one) => gramsWords(one.grams) },
        ]}
      />
    </Section>
  );
}

function Doubt({ doubt, zone }: { doubt: CylinderView['doubts'][number]; zone: string }) {
  return (
    <li>
      <p>
        <State mark="unsure">{doubt.title.charAt(0).toUpperCase() + doubt.title.slice(1)}</State>:{' '}
        <b>{doubt.blocks ? 'blocks its use until it is checked' : 'a warning; it may be used'}</b>
      </p>
      <p>{doubt.text}</p>
      <p className="quiet">
        {doubt.minutes !== null && `${doubt.minutes} min below site pressure; `}
        {momentWords(doubt.at, zone)}
        {doubt.visitId !== null && (
          <>
            ; <Link href={visitPath(doubt.visitId)}>the visit</Link>
          </>
        )}
      </p>
    </li>
  );
}

function Doubts({ doubts, zone }: { doubts: CylinderView['doubts']; zone: string }) {
  return (
    <Section id="doubts" title="Doubts about its gas">
      {doubts.length === 0 && <p>None known. That is no certificate of purity: only a laboratory gives one.</p>}
      <ul className={css['doubts']}>
        {doubts.map((doubt) => (
          <Doubt key={doubt.id} doubt={doubt} zone={zone} />
        ))}
      </ul>
      {doubts.length > 0 && <p className={css['rules']}>Field tests sort cylinders; they certify nothing.</p>}
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

/** One cylinder: what is in it, how much more may go in, what is doubtful, and where its gas came from and went. */
export function CylinderPage({ view, tenant }: { view: CylinderView; tenant: MeView['tenant'] }) {
  const unit = unitOf(tenant.massUnit);
  const zone = tenant.timeZone;
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <Landing />
      <Head view={view} unit={unit} />
      <div className={css['cut']}>
        <div>
          <SectionPanel view={view} unit={unit} />
        </div>
        <div>
          <Room view={view} unit={unit} />
          <Contents contents={view.contents} />
          <Movements view={view} zone={zone} />
        </div>
        <div>
          <Doubts doubts={view.doubts} zone={zone} />
        </div>
      </div>
    </main>
  );
}
