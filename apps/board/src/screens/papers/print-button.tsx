'use client';
import { Button } from '../../ui/button.tsx';

export function PrintButton() {
  return (
    <Button kind="main" onClick={() => print()}>
      Print
    </Button>
  );
}
