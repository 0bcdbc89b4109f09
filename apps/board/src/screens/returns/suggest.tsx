'use client';
import dynamic from 'next/dynamic';
import { useState } from 'react';
import { Button } from '../../ui/button.tsx';
import type { SuggestCardProps } from './suggest-card.tsx';
import css from './suggest.module.css';

const Working = () => (
  <p className="quiet" role="status">
    Looking for moments …
  </p>
);
const SuggestCard = dynamic(() => import('./suggest-card.tsx').then((card) => card.SuggestCard), { loading: Working });

/** Asks for moments and people to choose from; what is chosen stands in the form and is placed with it. */
export function Suggest(props: Omit<SuggestCardProps, 'working'>) {
  const [asked, setAsked] = useState(0);
  return (
    <div className={css['suggest']}>
      <Button onClick={() => setAsked((times) => times + 1)}>{asked === 0 ? 'Suggest' : 'Suggest again'}</Button>
      {asked > 0 && <SuggestCard key={asked} {...props} working={<Working />} />}
    </div>
  );
}
