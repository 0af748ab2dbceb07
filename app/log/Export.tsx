/** The way to the whole log as a file, for who may read all of it. A plain form: it works without JavaScript, and a link could be followed by mistake. */
export function Export() {
  return (
    <form className="no-print" action="/log/export" method="post">
      <button className="button button-quiet" type="submit">
        Export the log
      </button>{' '}
      <span className="small soft">
        All entries, earliest first, as FHIR R4 AuditEvent (NDJSON). The export is an entry too; a long log takes a while.
      </span>
    </form>
  )
}
