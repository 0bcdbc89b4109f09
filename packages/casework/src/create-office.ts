import { importDesk } from './imports/desk.ts';
import * as leaving from './leaving/ask.ts';
import type { Actor, Office, World } from './office.ts';
import { namePhoto, receivePart } from './photos/receive.ts';
import { photo, thumbnail } from './photos/show.ts';
import { applyDesk, applyPush } from './pipeline/doors.ts';
import { noticesView } from './views/notices.ts';
import { attentionView, changesView, peopleView } from './views/office.ts';
import { meView } from './views/me.ts';
import { booksView } from './views/books.ts';
import { cylinderList } from './views/cylinder-list.ts';
import { cylinderView } from './views/cylinders.ts';
import { cylinderUse } from './gas/use-advice.ts';
import { gasUsedView, gasUsedWhole } from './views/gas-used.ts';
import { leakRateSheet } from './views/leak-rate-sheet.ts';
import { manifestsView, manifestView } from './views/manifests.ts';
import { oneAwayView } from './views/one-away.ts';
import { periodAccountsView, periodView } from './views/period.ts';
import { placingGround, suggestionsView } from './views/placing.ts';
import { pricesView } from './views/prices.ts';
import { recallsView, recallView } from './views/recalls.ts';
import { pullAnswer } from './views/pull.ts';
import { repeatsView } from './views/repeats.ts';
import { returnsView } from './views/returns.ts';
import { serviceRecord } from './views/service-record.ts';
import { instrumentsView, locationsView, settingsView } from './views/house.ts';
import { statementView } from './views/statement.ts';
import { placesView, unitList, unitView } from './views/unit.ts';
import { look } from './views/viewer.ts';
import type { Viewer } from './views/viewer.ts';
import { visitList, visitView } from './views/visit.ts';
import { addWebhook, removeWebhook, setWebhook, testWebhook, webhooksView } from './webhooks/keep.ts';
import { evacuationAdvice } from './visits/evacuation.ts';

/** The office over a database: every command and every reading of a contractor. */
export function createOffice(world: World): Office {
  const read = <T>(actor: Actor, view: (viewer: Viewer) => Promise<T>): Promise<T> => look(world, actor, view);
  return {
    apply: (actor, command) => applyDesk(world, actor, command),
    push: (actor, body) => applyPush(world, actor, body),
    namePhoto: (actor, named) => namePhoto(world, actor, named),
    receivePart: (actor, given) => receivePart(world, actor, given),
    photo: (actor, hash) => read(actor, (viewer) => photo(viewer, hash)),
    thumbnail: (actor, hash) => read(actor, (viewer) => thumbnail(viewer, hash)),
    me: (actor) => meView(world, actor),
    people: (actor, door) => read(actor, (viewer) => peopleView(viewer, door)),
    places: (actor, page) => read(actor, (viewer) => placesView(viewer, page)),
    units: (actor, page) => read(actor, (viewer) => unitList(viewer, page)),
    unit: (actor, id) => read(actor, (viewer) => unitView(viewer, id)),
    visits: (actor, asked) => read(actor, (viewer) => visitList(viewer, asked)),
    visit: (actor, id) => read(actor, (viewer) => visitView(viewer, id)),
    evacuation: (actor, asked) => read(actor, (viewer) => evacuationAdvice(viewer, asked)),
    serviceRecord: (actor, id) => read(actor, (viewer) => serviceRecord(viewer, id)),
    returns: (actor, asked) => read(actor, (viewer) => returnsView(viewer, asked)),
    cylinders: (actor, asked) => read(actor, (viewer) => cylinderList(viewer, asked)),
    suggestions: (actor, asked) => read(actor, (viewer) => suggestionsView(viewer, asked)),
    placingGround: (actor, id) => read(actor, (viewer) => placingGround(viewer, id)),
    cylinder: (actor, id) => read(actor, (viewer) => cylinderView(viewer, id)),
    cylinderUse: (actor, asked) => read(actor, (viewer) => cylinderUse(viewer, asked)),
    manifests: (actor, page) => read(actor, (viewer) => manifestsView(viewer, page)),
    manifest: (actor, id) => read(actor, (viewer) => manifestView(viewer, id)),
    leakRateSheet: (actor, id) => read(actor, (viewer) => leakRateSheet(viewer, id)),
    books: (actor) => read(actor, booksView),
    statement: (actor, asked) => read(actor, (viewer) => statementView(viewer, asked)),
    repeats: (actor, asked) => read(actor, (viewer) => repeatsView(viewer, asked)),
    oneAway: (actor) => read(actor, oneAwayView),
    prices: (actor) => read(actor, pricesView),
    gasUsed: (actor, asked) => read(actor, (viewer) => gasUsedView(viewer, asked)),
    gasUsedWhole: (actor, asked) => read(actor, (viewer) => gasUsedWhole(viewer, asked)),
    period: (actor, asked) => read(actor, (viewer) => periodView(viewer, asked)),
    periodAccounts: (actor, asked) => read(actor, (viewer) => periodAccountsView(viewer, asked)),
    attention: (actor) => read(actor, attentionView),
    notices: (actor) => read(actor, noticesView),
    recalls: (actor) => read(actor, recallsView),
    recall: (actor, id) => read(actor, (viewer) => recallView(viewer, id)),
    settings: (actor) => read(actor, settingsView),
    locations: (actor) => read(actor, locationsView),
    instruments: (actor) => read(actor, instrumentsView),
    webhooks: (actor) => read(actor, webhooksView),
    addWebhook: (actor, webhook) => addWebhook(world, actor, webhook),
    setWebhook: (actor, to) => setWebhook(world, actor, to),
    testWebhook: (actor, id) => testWebhook(world, actor, id),
    removeWebhook: (actor, id) => removeWebhook(world, actor, id),
    ...importDesk(world, read),
    leaving: (actor) => read(actor, leaving.leavingView),
    askExport: (actor) => leaving.askExport(world, actor),
    exportFile: (actor, id) => leaving.exportFile(world, actor, id),
    nameTakeOver: (actor, named) => leaving.nameTakeOver(world, actor, named),
    receiveParcelPart: (actor, part) => leaving.receiveParcelPart(world, actor, part),
    beginTakeOver: (actor, id) => leaving.beginTakeOver(world, actor, id),
    pull: (actor, asked) => read(actor, (viewer) => pullAnswer(viewer, asked)),
    changes: (actor, since) => read(actor, (viewer) => changesView(viewer, since)),
  };
}
