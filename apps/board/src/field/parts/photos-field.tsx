'use client';
import { useState, type ChangeEvent } from 'react';
import { FieldGroup } from '../../ui/field.tsx';
import { PhotoTile } from '../../ui/photo-tile.tsx';
import { useField } from '../field-context.tsx';
import type { Added } from '../photos/album.ts';
import { usePhotos } from '../photos/use-photos.ts';
import type { Bound } from './bind.ts';
import css from './photos.module.css';

const AT_MOST = 12;
const WHY: Readonly<Record<Extract<Added, { ok: false }>['why'], string>> = {
  'not-a-picture': 'That is no picture this phone can read: take it with the camera.',
  full: 'This phone is full and cannot keep the photo.',
  'not-secure': 'Photos need a secure connection (https): ask the office for the address.',
};

/** Adds pictures one by one, each kept on this phone before the next. */
function useAdding({ value, onChange }: Pick<Bound<readonly string[]>, 'value' | 'onChange'>) {
  const { album } = useField();
  const [keeping, setKeeping] = useState(0);
  const [wrong, setWrong] = useState<string>();
  const add = async (files: readonly File[]): Promise<void> => {
    setWrong(undefined);
    setKeeping(files.length);
    let hashes = value;
    for (const file of files.slice(0, AT_MOST - value.length)) {
      // Hashing is only there where the browser trusts the connection.
      const added: Added = isSecureContext
        ? await album.add(file).catch((): Added => ({ ok: false, why: 'full' }))
        : { ok: false, why: 'not-secure' };
      if (!added.ok) setWrong(WHY[added.why]);
      else if (!hashes.includes(added.hash)) {
        hashes = [...hashes, added.hash];
        onChange(hashes);
      }
    }
    setKeeping(0);
  };
  return { add, keeping, wrong };
}

/** Photos of what is recorded here. They wait on this phone and hold nothing up. */
export function PhotosField({ id, error, value, onChange, label, hint, optional = false }: PhotosFieldProps) {
  const { album } = useField();
  const here = usePhotos();
  const { add, keeping, wrong } = useAdding({ value, onChange });
  const choose = (event: ChangeEvent<HTMLInputElement>): void => {
    void add([...(event.target.files ?? [])]);
    event.target.value = '';
  };
  const remove = (hash: string): void => {
    onChange(value.filter((one) => one !== hash));
    album.forget(hash);
  };
  return (
    <FieldGroup id={id} error={error ?? wrong} label={label} hint={hint} optional={optional}>
      {value.length > 0 && (
        <ul className={css['strip']} aria-label={label}>
          {value.map((hash, index) => (
            <li key={hash}>
              <Tile hash={hash} kept={here.get(hash)} alt={`Photo ${index + 1}`} />
              <button type="button" className={css['remove']} onClick={() => remove(hash)}>
                Remove<span className="spoken"> photo {index + 1}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {value.length < AT_MOST && (
        <label className={css['take']}>
          <input type="file" accept="image/*" multiple onChange={choose} disabled={keeping > 0} />
          <span>{value.length === 0 ? 'Take a photo' : 'One more photo'}</span>
        </label>
      )}
      <p className={css['says']} role="status">
        {keeping > 0 && 'Keeping the photo on this phone'}
      </p>
    </FieldGroup>
  );
}
export interface PhotosFieldProps extends Bound<readonly string[]> {
  readonly label: string;
  readonly hint?: string;
  readonly optional?: boolean;
}

function Tile({
  hash,
  kept,
  alt,
}: {
  hash: string;
  kept: ReturnType<ReturnType<typeof usePhotos>['get']>;
  alt: string;
}) {
  if (!kept) return <PhotoTile hash={hash} state="complete" alt={alt} />;
  const words = { waiting: 'on this phone', sending: 'sending', refused: 'refused' }[kept.state];
  return <PhotoTile src={kept.url} alt={alt} words={words} />;
}
