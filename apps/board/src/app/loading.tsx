import { Skeleton } from '../ui/skeleton.tsx';

export default function Loading() {
  return <Skeleton label="Loading" />;
}
