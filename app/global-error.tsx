'use client'

import './globals.css'

/** When even the frame around the pages fails: most likely the database cannot be opened. */
export default function FailedWhole() {
  return (
    <html lang="en">
      <body>
        <main className="page narrow" id="page">
          <title>Not available - Lowmark</title>
          <h1>Lowmark is not available</h1>
          <p className="notice notice-alert">Its database cannot be read now. Nothing was shown and nothing was changed.</p>
          <p>
            <a href="/">Try again</a>
          </p>
        </main>
      </body>
    </html>
  )
}
