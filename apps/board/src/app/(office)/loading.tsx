import { Skeleton } from '../../ui/skeleton.tsx';

/** Below the frame on purpose: what the frame decides (a stranger, no contractor) still answers with a real redirect. */
export default function Loading() {
  return <Skeleton label="Loading" />;
}
