'use client';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { tell } from '../../ui/toast.tsx';
import css from './settings.module.css';

export interface SecretProps {
  readonly title: string;
  readonly secret: string;
  readonly children: string;
  readonly onClose: () => void;
}
/** What the server will never show again. */
export function Secret({ title, secret, children, onClose }: SecretProps) {
  async function copy(): Promise<void> {
    try {
      await navigator.clipboard.writeText(secret);
      tell('It is copied.');
    } catch {
      tell('It could not be copied: select it by hand.', 'refused');
    }
  }
  return (
    <Dialog
      open
      title={title}
      onClose={onClose}
      actions={
        <>
          <Button kind="main" autoFocus onClick={() => void copy()}>
            Copy
          </Button>
          <Button onClick={onClose}>I have kept it</Button>
        </>
      }
    >
      <div className={css['once']}>
        <p>{children}</p>
        <output aria-label={title}>{secret}</output>
      </div>
    </Dialog>
  );
}
