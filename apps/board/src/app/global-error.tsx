'use client';
import './globals.css';

/** Stands in for the whole page when even its frame fails. It is made at build time and must not need a script. */
export default function GlobalError() {
  return (
    <html lang="en-US">
      <body>
        <main style={{ maxWidth: '56ch', margin: '20vh auto 0', padding: 16 }}>
          <title>Not available · Ullage</title>
          <h1>Ullage cannot show this page.</h1>
          <p>What was recorded is safe. Load the page again in a minute.</p>
          <p>
            {/* A full load on purpose: the frame that a soft navigation needs has failed. */}
            <a href="/">Go to the start</a>
          </p>
        </main>
      </body>
    </html>
  );
}
