'use client';
import { PhotoTile } from '../../ui/photo-tile.tsx';
import { usePhotos } from '../photos/use-photos.ts';
import css from './photos.module.css';

export interface NamedPhoto {
  readonly hash: string;
  readonly state: 'awaited' | 'arriving' | 'complete';
}

/** Photos of something recorded: from this phone while they are here, else from the server. */
export function PhotoStrip({ photos, of }: { photos: readonly NamedPhoto[]; of: string }) {
  const here = usePhotos();
  if (photos.length === 0) return null;
  return (
    <ul className={css['strip']} aria-label={`Photos of ${of}`}>
      {photos.map(({ hash, state }, index) => {
        const kept = here.get(hash);
        const alt = `Photo ${index + 1} of ${of}`;
        return (
          <li key={hash}>
            {kept ? (
              <PhotoTile src={kept.url} alt={alt} words={kept.state === 'refused' ? 'refused' : 'on this phone'} />
            ) : (
              <PhotoTile hash={hash} state={state} alt={alt} />
            )}
          </li>
        );
      })}
    </ul>
  );
}
