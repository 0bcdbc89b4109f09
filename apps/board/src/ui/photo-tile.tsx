import css from './photo-tile.module.css';

const WORDS = { awaited: 'still on a phone', arriving: 'arriving', complete: undefined } as const;
const WIDTH = 112;
const HEIGHT = 84;

/** A photo in small: the server's, which opens the whole one, or one that is only here. Where it is, is said in words. */
export function PhotoTile(props: PhotoTileProps) {
  const words = 'src' in props ? props.words : WORDS[props.state];
  const src = 'src' in props ? props.src : props.state === 'complete' ? `/v1/photos/${props.hash}/small` : undefined;
  const picture =
    src === undefined ? (
      <span className={css['empty']} role="img" aria-label={`${props.alt}, ${words ?? ''}`} />
    ) : (
      <img src={src} alt={props.alt} width={WIDTH} height={HEIGHT} loading="lazy" decoding="async" />
    );
  return (
    <figure className={css['tile']}>
      {'hash' in props && props.state === 'complete' ? (
        <a href={`/v1/photos/${props.hash}`} target="_blank" rel="noreferrer">
          {picture}
        </a>
      ) : (
        picture
      )}
      {words !== undefined && <figcaption>{words}</figcaption>}
    </figure>
  );
}
export type PhotoTileProps =
  | { readonly src: string; readonly alt: string; readonly words?: string | undefined }
  | { readonly hash: string; readonly state: keyof typeof WORDS; readonly alt: string };
