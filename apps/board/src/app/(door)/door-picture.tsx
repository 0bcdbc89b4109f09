import { CylinderSection } from '../../pictures/cylinder-section.tsx';

/** What the name means, drawn: a cylinder at 56.7 % liquid whose legal fill stands at 77.8 %. */
export function DoorPicture() {
  return (
    <figure>
      <CylinderSection
        liquid={0.567}
        limit={0.778}
        hot={0.65}
        marks={[
          { at: 0.778, text: 'legal fill' },
          { at: 0.65, text: 'the same on a hot day' },
          { at: 0.567, text: 'liquid now' },
        ]}
        labels={{ ullage: 'ullage' }}
        label="A cylinder in section: liquid, what it grows to on a hot day, the legal fill, and ullage above"
        height={404}
      />
      <figcaption>
        <p>Ullage is the room left above the liquid.</p>
        <p>Gas kept in the books, leaks kept in sight, returns kept in their time.</p>
      </figcaption>
    </figure>
  );
}
