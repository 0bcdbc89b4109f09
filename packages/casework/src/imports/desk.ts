import type { Actor, Office, World } from '../office.ts';
import type { Viewer } from '../views/viewer.ts';
import { decideImport, matchImport, receiveImport, runImport, undoImport } from './change.ts';
import { importList, importRows, importView } from './show.ts';

type Desk = Pick<
  Office,
  'imports' | 'importRun' | 'importRows' | 'receiveImport' | 'matchImport' | 'decideImport' | 'runImport' | 'undoImport'
>;

/** The part of the office that takes files in. Each step answers with the import as it then stands. */
export function importDesk(
  world: World,
  read: <T>(actor: Actor, view: (viewer: Viewer) => Promise<T>) => Promise<T>,
): Desk {
  const shown: Desk['importRun'] = (actor, id) => read(actor, (viewer) => importView(viewer, id));
  return {
    imports: (actor) => read(actor, importList),
    importRun: shown,
    importRows: (actor, asked) => read(actor, (viewer) => importRows(viewer, asked)),
    receiveImport: (actor, given) => receiveImport(world, actor, given).then(() => shown(actor, given.id)),
    matchImport: (actor, given) => matchImport(world, actor, given).then(() => shown(actor, given.id)),
    decideImport: (actor, given) => decideImport(world, actor, given).then(() => shown(actor, given.id)),
    runImport: (actor, id) => runImport(world, actor, id).then(() => shown(actor, id)),
    undoImport: (actor, id) => undoImport(world, actor, id).then(() => shown(actor, id)),
  };
}
