import { CylinderSection } from '../../pictures/cylinder-section.tsx';

/** What the name means, drawn. */
export function DoorPicture() {
  return (
    <figure>
      <CylinderSection
        liquid={0.567}
        limit={0.778}
        labels={{ ullage: 'ullage' }}
        label="A cylinder in section: liquid below, ullage above"
        height={404}
      />
      <figcaption>
        <p>Ullage is the room left above the liquid.</p>
        <p>Gas kept in the books, leaks kept in sight, returns kept in their time.</p>
      </figcaption>
    </figure>
  );
}
