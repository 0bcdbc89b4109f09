import type {
  BilledAsked,
  BooksView,
  AttentionView,
  ChangesView,
  CommandAnswer,
  CommandName,
  CylinderListView,
  CylinderUseAdvice,
  CylinderUseQuery,
  CylinderView,
  DecideImport,
  DOUBT_ASKED,
  EvacuationAdvice,
  EvacuationQuery,
  ImportListView,
  ImportRowsAsked,
  ImportRowsView,
  ImportView,
  InstrumentListView,
  GasUsedRow,
  GasUsedView,
  LeakRateSheetView,
  LeavingView,
  LocationListView,
  ManifestListView,
  ManifestView,
  MatchImport,
  MeView,
  NameParcel,
  NoticesView,
  OneAwayView,
  PeopleView,
  PeriodAccountsView,
  PeriodView,
  ParcelArrival,
  PhotoArrival,
  PlacesView,
  PlacingGround,
  PricesView,
  PullAnswer,
  PullAsked,
  PushAnswer,
  RepeatOrder,
  RecallListView,
  RecallView,
  RepeatsView,
  ReturnsView,
  Role,
  ServiceRecordView,
  SettingsView,
  StatementView,
  SuggestionsQuery,
  SuggestionsView,
  UnitListView,
  UnitView,
  VisitListView,
  VisitView,
  WebhookList,
} from '@ullage/contracts';
import type { GwpSet } from '@ullage/rulebook';
import type { Calendar, Instant } from '@ullage/units';
import type { Database } from '@ullage/database';
import type { ImportGiven } from './imports/shapes.ts';
import type { ExportFile } from './leaving/shapes.ts';
import type { Part, ReadPicture, Shown } from './photos/shapes.ts';

/** Who acts, as the guard found them on this very request. */
export interface Actor {
  readonly tenantId: string;
  readonly userId: string;
  readonly role: Role;
  /** Network address for the audit trail. */
  readonly address?: string;
  /** The key by which a program acts in this person's name. */
  readonly key?: { readonly id: string; readonly name: string };
  /** Who acted at the contractor's former place, whose file is being taken over; `userId` is the one they had there. */
  readonly takenOver?: { readonly personId: string; readonly receivedAt: Instant };
}
/** What the outside world gives: time, ids and the calendar. Rows get their instants from here, never from the database. */
export interface World {
  readonly database: Database;
  readonly calendar: Calendar;
  now(): Instant;
  newId(): string;
}
/** A command as a desk sends it: the Idempotency-Key is its id, `received` the body as it came, before any default. */
export interface DeskCommand {
  readonly id: string;
  readonly kind: CommandName;
  readonly received: unknown;
}
export interface PageQuery {
  readonly query?: string;
  readonly after?: string | undefined;
}
export interface CylindersAsked extends PageQuery {
  /** A gas held, or `empty`. */
  readonly gas?: string | undefined;
  readonly doubt?: (typeof DOUBT_ASKED)[number] | undefined;
  /** Where it was last weighed. */
  readonly site?: string | undefined;
  /** A location, or what is asked of those that are at none. */
  readonly place?: string | undefined;
}
export interface StatementAsked {
  readonly accountId: string;
  /** One gas; all of them together where none is said. */
  readonly refrigerant?: string | undefined;
  /** The line before which to read; the newest lines without it. */
  readonly before?: string | undefined;
}

export interface RepeatsAsked {
  /** The contractor's own set, unless said. */
  readonly gwp?: GwpSet | undefined;
  readonly order?: RepeatOrder | undefined;
  /** The circuit after which to read. */
  readonly after?: string | undefined;
}
export interface GasUsedAsked {
  /** What is not billed yet, unless said. */
  readonly billed?: BilledAsked | undefined;
  /** The visit after which to read. */
  readonly after?: string | undefined;
}
/** Calendar days of the contractor's, both included; the current year where they are not said. */
export interface PeriodAsked {
  readonly from?: string | undefined;
  readonly to?: string | undefined;
}

/**
 * Everything a contractor's people can do and see. One per process; each call is one tenant's transaction.
 * Every method throws `Refusal` for what is refused, with `not-found` alike for an id that is another tenant's and one
 * that does not exist.
 */
export interface Office {
  /** Applies a desk command once. The same id with the same content answers as the first time. */
  apply(actor: Actor, command: DeskCommand): Promise<CommandAnswer>;
  /** Applies a device's batch: each command by itself, a bad one stepped over. `body` is the push as it came. */
  push(actor: Actor, body: unknown): Promise<PushAnswer>;
  /** Says how large a photo is, and hears which parts are missing. */
  namePhoto(actor: Actor, named: { hash: string; bytes: number }): Promise<PhotoArrival>;
  /** Takes a part of a photo; `read` looks at the whole once it is there. */
  receivePart(actor: Actor, given: { part: Part; read: ReadPicture }): Promise<PhotoArrival>;
  photo(actor: Actor, hash: string): Promise<Shown>;
  thumbnail(actor: Actor, hash: string): Promise<Shown>;
  me(actor: Actor): Promise<MeView>;
  /** `door` is what the sign-in side knows. */
  people(actor: Actor, door: Pick<PeopleView, 'invitations' | 'mailsLinks'>): Promise<PeopleView>;
  places(actor: Actor, page: PageQuery): Promise<PlacesView>;
  units(actor: Actor, page: PageQuery): Promise<UnitListView>;
  unit(actor: Actor, unitId: string): Promise<UnitView>;
  /** Visits of a person on a day (in the site's zone), or of everybody. */
  visits(actor: Actor, asked: { day?: string; personId?: string }): Promise<VisitListView>;
  visit(actor: Actor, visitId: string): Promise<VisitView>;
  /** What the law asks of a recovery before it is done, and what going lower risks. */
  evacuation(actor: Actor, asked: EvacuationQuery & { visitId: string }): Promise<EvacuationAdvice>;
  serviceRecord(actor: Actor, visitId: string): Promise<ServiceRecordView>;
  returns(actor: Actor, asked: { weekOf?: string }): Promise<ReturnsView>;
  cylinders(actor: Actor, asked: CylindersAsked): Promise<CylinderListView>;
  /** Moments and people between which placing this visit is a real choice. */
  suggestions(actor: Actor, asked: SuggestionsQuery & { visitId: string }): Promise<SuggestionsView>;
  /** What the rules of placing read, for whoever is still choosing. */
  placingGround(actor: Actor, visitId: string): Promise<PlacingGround>;
  cylinder(actor: Actor, cylinderId: string): Promise<CylinderView>;
  /** What stops an act with a cylinder, and what to think of first; asked before it is done. */
  cylinderUse(actor: Actor, asked: CylinderUseQuery & { cylinderId: string }): Promise<CylinderUseAdvice>;
  /** What was sent to reclaimers and destroyers, newest first. */
  manifests(actor: Actor, page: Pick<PageQuery, 'after'>): Promise<ManifestListView>;
  manifest(actor: Actor, shipmentId: string): Promise<ManifestView>;
  leakRateSheet(actor: Actor, calculationId: string): Promise<LeakRateSheetView>;
  books(actor: Actor): Promise<BooksView>;
  /** One gas account, its newest movements first. */
  statement(actor: Actor, asked: StatementAsked): Promise<StatementView>;
  /** Circuits that are topped off again and again, a page at a time, the worst first. */
  repeats(actor: Actor, asked: RepeatsAsked): Promise<RepeatsView>;
  /** Circuits that one more addition of the usual size would take over the legal threshold. */
  oneAway(actor: Actor): Promise<OneAwayView>;
  prices(actor: Actor): Promise<PricesView>;
  /** Gas by visit, and the invoice it stands on. */
  gasUsed(actor: Actor, asked: GasUsedAsked): Promise<GasUsedView>;
  /** The same in one piece, for a file. */
  gasUsedWhole(actor: Actor, asked: Pick<GasUsedAsked, 'billed'>): Promise<{ rows: GasUsedRow[]; currency: string }>;
  /** What each refrigerant opened with, what moved in a period, and what left for good. */
  period(actor: Actor, asked: PeriodAsked): Promise<PeriodView>;
  /** The cylinders and circuits behind one refrigerant of it. */
  periodAccounts(actor: Actor, asked: PeriodAsked & { readonly refrigerant: string }): Promise<PeriodAccountsView>;
  attention(actor: Actor): Promise<AttentionView>;
  notices(actor: Actor): Promise<NoticesView>;
  recalls(actor: Actor): Promise<RecallListView>;
  /** What a recall reached by all that is known now, and what became of it. */
  recall(actor: Actor, recallId: string): Promise<RecallView>;
  settings(actor: Actor): Promise<SettingsView>;
  locations(actor: Actor): Promise<LocationListView>;
  instruments(actor: Actor): Promise<InstrumentListView>;
  /** The programs that are told of changes, without their secrets. */
  webhooks(actor: Actor): Promise<WebhookList>;
  addWebhook(actor: Actor, webhook: { id: string; url: string; secret: string }): Promise<void>;
  setWebhook(actor: Actor, to: { id: string; on: boolean }): Promise<void>;
  testWebhook(actor: Actor, id: string): Promise<void>;
  removeWebhook(actor: Actor, id: string): Promise<void>;
  imports(actor: Actor): Promise<ImportListView>;
  importRun(actor: Actor, id: string): Promise<ImportView>;
  importRows(actor: Actor, asked: { id: string } & ImportRowsAsked): Promise<ImportRowsView>;
  /** Takes a file in; the night reads it. */
  receiveImport(actor: Actor, given: ImportGiven): Promise<ImportView>;
  /** Says what each column holds; the night checks the rows and writes nothing else. */
  matchImport(actor: Actor, given: { id: string } & MatchImport): Promise<ImportView>;
  /** Hears of names that are nearly alike whether they are the same; the night checks the rows again. */
  decideImport(actor: Actor, given: { id: string } & DecideImport): Promise<ImportView>;
  /** Has the rows that are fine carried out. */
  runImport(actor: Actor, id: string): Promise<ImportView>;
  /** Has all of it taken back, while nothing rests on it. */
  undoImport(actor: Actor, id: string): Promise<ImportView>;
  /** Files of everything that were made, and the one that was taken over. */
  leaving(actor: Actor): Promise<LeavingView>;
  /** Has a file made of everything; the night's work makes it. */
  askExport(actor: Actor): Promise<{ id: string }>;
  exportFile(actor: Actor, id: string): Promise<ExportFile>;
  /** Says how large a file to be taken over is, and hears which parts are missing. */
  nameTakeOver(actor: Actor, named: NameParcel): Promise<ParcelArrival>;
  receiveParcelPart(actor: Actor, part: { id: string; number: number; content: Uint8Array }): Promise<void>;
  /** Begins to take it over, where nothing was done yet. */
  beginTakeOver(actor: Actor, id: string): Promise<void>;
  /** A device's question: which visits are its person's, what changed about them, how their commands stand. */
  pull(actor: Actor, asked: PullAsked): Promise<PullAnswer>;
  changes(actor: Actor, since: { epoch: number; number: number }): Promise<ChangesView>;
}
