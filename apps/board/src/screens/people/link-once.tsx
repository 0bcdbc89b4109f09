'use client';
import dynamic from 'next/dynamic';
import { useRef, useState } from 'react';
import { isReachable } from '../../lib/reachable.ts';
import { Button } from '../../ui/button.tsx';
import css from './people.module.css';

/** Loaded where there is something to scan. */
const Code = dynamic(() => import('../../ui/qr-code.tsx').then((part) => part.QrCode));

/** How a link came to whom it is for: by mail, or by being shown here. */
export interface Handed {
  readonly to: string;
  readonly mail: 'sent' | 'failed' | 'off';
  readonly url: string | null;
}

/** `shown` is the sentence before a link that is handed on by whoever made it. */
export function HandedLink({ link, shown }: { link: Handed; shown: string }) {
  if (link.url !== null)
    return <LinkOnce url={link.url}>{link.mail === 'failed' ? `The mail did not go out. ${shown}` : shown}</LinkOnce>;
  return (
    <p role="status">
      Sent to <b className={css['address']}>{link.to}</b>. The link in the mail works once and ends after seven days.
    </p>
  );
}

/** A link that the server will never show again: to read, to copy, to hand on. */
function LinkOnce({ url, children }: { url: string; children: string }) {
  const field = useRef<HTMLInputElement>(null);
  const [copied, setCopied] = useState(false);
  async function copy(): Promise<void> {
    field.current?.select();
    try {
      await navigator.clipboard.writeText(url);
      setCopied(true);
    } catch {
      // Without the clipboard's permission the link stays selected, to be copied by hand.
      setCopied(false);
    }
  }
  return (
    <div className={css['link']}>
      <p>{children} It is shown this once, works once, and ends after seven days.</p>
      <div>
        <input
          ref={field}
          className="id"
          readOnly
          value={url}
          aria-label="The link"
          onFocus={(e) => e.target.select()}
        />
        <Button kind="main" autoFocus onClick={() => void copy()}>
          Copy
        </Button>
      </div>
      <p role="status">{copied ? 'Copied.' : ''}</p>
      {isReachable(url) ? (
        <>
          <p>Or let their phone’s camera read it.</p>
          <Code text={url} label="Code of the link" />
        </>
      ) : (
        <p className="quiet">No code to scan: this address means this very computer, so no phone could open it.</p>
      )}
    </div>
  );
}
