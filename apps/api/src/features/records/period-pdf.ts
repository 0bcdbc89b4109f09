/** The books of a period on paper: Letter, one block a refrigerant, the ledger first and the stocktaking under it. */
import PDFDocument from 'pdfkit';
import type { PeriodBookView, PeriodView } from '@ullage/contracts';

const MARGIN = 54;
const LINE = 15;
const [REGULAR, BOLD] = ['Helvetica', 'Helvetica-Bold'];

interface Line {
  readonly words: string;
  readonly grams: number;
  readonly sum?: true;
}
const linesOf = (book: PeriodBookView): Line[] => [
  { words: 'Opening: in cylinders', grams: book.opening.cylinders },
  { words: 'Opening: in circuits', grams: book.opening.circuits },
  { words: 'Brought into the books', grams: book.broughtIn },
  { words: 'Purchased', grams: book.purchased },
  { words: 'From others, less what went to them', grams: book.fromOthers },
  { words: 'Charged into circuits', grams: book.charged },
  { words: 'Recovered from circuits', grams: book.recovered },
  { words: 'Sent to reclaim or destruction', grams: book.sent },
  { words: 'To discrepancy, less what came from it', grams: book.missing },
  { words: 'Closing: in cylinders', grams: book.closing.cylinders },
  { words: 'Closing: in circuits', grams: book.closing.circuits },
  { words: 'Leaked', grams: book.emissions.leaked },
  { words: 'Service loss', grams: book.emissions.service },
  { words: 'Emissions by the ledger', grams: book.emissions.total, sum: true },
  { words: 'Stock fell by', grams: book.massBalance.inventoryFell },
  { words: 'plus acquired', grams: book.massBalance.acquired },
  { words: 'less disbursed', grams: book.massBalance.disbursed },
  { words: 'less rise of full charges', grams: book.massBalance.fullChargeRose },
  { words: 'Emissions by mass balance (40 CFR 98.303(a))', grams: book.massBalance.emissions, sum: true },
  { words: 'Difference: out of discrepancy', grams: book.difference.outOfDiscrepancy },
  { words: 'Difference: circuits further below their full charge', grams: book.difference.furtherBelowFull },
  { words: 'Ledger less mass balance', grams: book.difference.total, sum: true },
];

/** The built-in faces know Western European letters; a name in others is still told from its neighbours on screen. */
const writable = (text: string): string => text.normalize('NFC').replaceAll(/[^\u0020-\u007E\u00A0-\u00FF]/g, '?');
const gramsText = (grams: number): string => `${grams.toLocaleString('en-US')} g`;

type Paper = InstanceType<typeof PDFDocument>;

function writeLine(paper: Paper, { words, grams, sum }: Line): void {
  const { y } = paper;
  const width = paper.page.width - 2 * MARGIN;
  if (sum) {
    paper
      .moveTo(MARGIN, y - 3)
      .lineTo(MARGIN + width, y - 3)
      .lineWidth(0.5)
      .stroke();
  }
  paper.font(sum ? BOLD : REGULAR, 10).text(words, MARGIN, y, { width: width - 110, lineBreak: false });
  paper.text(gramsText(grams), MARGIN + width - 110, y, { width: 110, align: 'right', lineBreak: false });
  paper.y = y + LINE;
}

function writeBook(paper: Paper, book: PeriodBookView): void {
  const lines = linesOf(book);
  const height = (lines.length + 3) * LINE;
  if (paper.y + height > paper.page.height - MARGIN) paper.addPage();
  paper.font(BOLD, 13).text(writable(book.refrigerant), MARGIN, paper.y);
  paper.moveDown(0.4);
  for (const line of lines) writeLine(paper, line);
  paper.y += LINE;
}

/** Resolves with the whole file; a year of a contractor is a few pages. */
export function periodPdf(view: PeriodView): Promise<Buffer> {
  const title = `Books from ${view.from} to ${view.to}`;
  const info = { Title: title, Author: writable(view.contractor), CreationDate: new Date(view.madeAt) };
  const paper = new PDFDocument({ size: 'LETTER', margin: MARGIN, info, lang: 'en-US' });
  return new Promise((resolve, reject) => {
    const parts: Buffer[] = [];
    paper.on('data', (part: Buffer) => parts.push(part));
    paper.on('end', () => resolve(Buffer.concat(parts)));
    paper.on('error', reject);
    paper.font(BOLD, 18).text(title);
    paper.font(REGULAR, 10).text(writable(view.contractor));
    paper.text(`Days of ${view.timeZone}, both included. Made ${view.madeAt.slice(0, 16).replace('T', ' ')} UTC.`);
    paper.moveDown(1.2);
    if (view.books.length === 0) paper.text('No gas was in the books.');
    for (const book of view.books) writeBook(paper, book);
    paper.end();
  });
}
