'use client';
import type { ReactNode } from 'react';
import { Button, Menu as AriaMenu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import button from './button.module.css';
import css from './menu.module.css';

export interface MenuEntry {
  readonly id: string;
  readonly text: string;
  readonly note?: string;
  /** Why it cannot be chosen now; it stays in the list and says so. */
  readonly disabledBecause?: string;
}
export interface MenuProps {
  /** What the button says; for a screen reader too when it is only a sign. */
  readonly label: string;
  readonly children?: ReactNode;
  readonly entries: readonly MenuEntry[];
  readonly onChoose: (id: string) => void;
  /** `bare` for a menu in a line of text, as the person's in the top bar. */
  readonly kind?: 'plain' | 'bare';
}

export function Menu({ label, children, entries, onChoose, kind = 'plain' }: MenuProps) {
  const off = entries.filter((entry) => entry.disabledBecause !== undefined).map((entry) => entry.id);
  return (
    <MenuTrigger>
      <Button
        className={(kind === 'bare' ? css['bare'] : button['button']) ?? ''}
        {...(children === undefined ? {} : { 'aria-label': label })}
      >
        {children ?? label}
        <span className={css['down']} aria-hidden="true" />
      </Button>
      <Popover placement="bottom end" offset={2} className={css['pop'] ?? ''}>
        <AriaMenu className={css['menu'] ?? ''} disabledKeys={off} onAction={(key) => onChoose(String(key))}>
          {entries.map((entry) => (
            <MenuItem key={entry.id} id={entry.id} textValue={entry.text} className={css['item'] ?? ''}>
              <span>{entry.text}</span>
              {(entry.disabledBecause ?? entry.note) !== undefined && (
                <small>{entry.disabledBecause ?? entry.note}</small>
              )}
            </MenuItem>
          ))}
        </AriaMenu>
      </Popover>
    </MenuTrigger>
  );
}
