// npm run check-books                    the books of every contractor
// npm run check-books -- <contractor id> of one
import { checkAllBooks } from './keeping/check-all.ts';
import { asCommand, refuseUnmigrated, withDatabase } from './keeping/with-database.ts';
import { say } from './say.ts';

await asCommand(() =>
  withDatabase(async (urls) => {
    await refuseUnmigrated(urls);
    return (await checkAllBooks({ urls, only: process.argv[2], say })) === 0;
  }),
);
