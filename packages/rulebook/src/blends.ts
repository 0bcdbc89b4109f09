/** Nominal compositions in mass percent, in the order of the designation. */
interface Blend {
  readonly components: readonly { readonly name: string; readonly massPercent: string }[];
  readonly source: string;
}

const LIST = 'ANSI/ASHRAE Standard 34 designation list';
const MEMORY = 'ANSI/ASHRAE Standard 34, composition from memory';

/** `R-32 50, R-125 50` */
const blend = (text: string, source: string = LIST): Blend => ({
  components: text.split(', ').map((part) => {
    const [name = '', massPercent = ''] = part.split(' ');
    return { name, massPercent };
  }),
  source,
});

export const BLENDS: Readonly<Record<string, Blend>> = {
  'R-401A': blend('R-22 53, R-152a 13, R-124 34'),
  'R-402A': blend('R-125 60, R-290 2, R-22 38'),
  'R-404A': blend('R-125 44, R-143a 52, R-134a 4'),
  'R-407A': blend('R-32 20, R-125 40, R-134a 40'),
  'R-407C': blend('R-32 23, R-125 25, R-134a 52'),
  'R-407F': blend('R-32 30, R-125 30, R-134a 40'),
  'R-407H': blend('R-32 32.5, R-125 15, R-134a 52.5'),
  'R-408A': blend('R-125 7, R-143a 46, R-22 47'),
  'R-409A': blend('R-22 60, R-124 25, R-142b 15'),
  'R-410A': blend('R-32 50, R-125 50'),
  'R-417A': blend('R-125 46.6, R-134a 50, R-600 3.4'),
  'R-422D': blend('R-125 65.1, R-134a 31.5, R-600a 3.4'),
  'R-427A': blend('R-32 15, R-125 25, R-143a 10, R-134a 50'),
  'R-438A': blend('R-32 8.5, R-125 45, R-134a 44.2, R-600 1.7, R-601a 0.6'),
  'R-448A': blend('R-32 26, R-125 26, R-1234yf 20, R-134a 21, R-1234ze(E) 7'),
  'R-449A': blend('R-32 24.3, R-125 24.7, R-1234yf 25.3, R-134a 25.7'),
  'R-450A': blend('R-134a 42, R-1234ze(E) 58'),
  'R-452A': blend('R-32 11, R-125 59, R-1234yf 30'),
  'R-452B': blend('R-32 67, R-125 7, R-1234yf 26'),
  'R-454A': blend('R-32 35, R-1234yf 65'),
  'R-454B': blend('R-32 68.9, R-1234yf 31.1'),
  'R-454C': blend('R-32 21.5, R-1234yf 78.5'),
  'R-455A': blend('R-744 3, R-32 21.5, R-1234yf 75.5'),
  'R-463A': blend('R-744 6, R-32 36, R-125 30, R-1234yf 14, R-134a 14'),
  'R-500': blend('R-12 73.8, R-152a 26.2'),
  'R-502': blend('R-22 48.8, R-115 51.2'),
  'R-503': blend('R-23 40.1, R-13 59.9', MEMORY),
  'R-507A': blend('R-125 50, R-143a 50'),
  'R-508B': blend('R-23 46, R-116 54'),
  'R-513A': blend('R-1234yf 56, R-134a 44'),
  'R-515B': blend('R-1234ze(E) 91.1, R-227ea 8.9', MEMORY),
  'R-516A': blend('R-1234yf 77.5, R-134a 8.5, R-152a 14', MEMORY),
};
