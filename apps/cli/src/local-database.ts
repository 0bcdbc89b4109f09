import { startPostgres, type PostgresOptions, type RunningPostgres } from './postgres.ts';
import { ensureDatabase, ensureRoles, localPasswords, urlsFor, type DatabaseUrls } from './tasks.ts';

export interface LocalDatabase {
  readonly server: RunningPostgres;
  readonly urls: DatabaseUrls;
  /** True when this start made the database: only then may demo data go into it. */
  readonly created: boolean;
}

const NAME = 'ullage';

/** The embedded server with its five logins and the database `ullage`, not yet migrated. */
export async function localDatabase(options: PostgresOptions): Promise<LocalDatabase> {
  const server = await startPostgres(options);
  try {
    const passwords = localPasswords();
    await ensureRoles(server.url, passwords);
    const created = await ensureDatabase(server.url, NAME);
    return { server, urls: urlsFor(server.url, NAME, passwords), created };
  } catch (error) {
    await server.stop();
    throw error;
  }
}
