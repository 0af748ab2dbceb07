/**
 * Content Security Policy Level 3 (W3C): scripts run only with this request's nonce or when such a script loads them; no inline style
 * element without it, no style attribute, no frame, no plug-in, nothing from elsewhere.
 */
export function contentSecurityPolicy(nonce: string, dev: boolean): string {
  // The development build of React evaluates strings to show server stacks; the built pages never do.
  const forDevelopment = dev ? " 'unsafe-eval'" : ''
  return [
    "default-src 'none'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${forDevelopment}`,
    `style-src 'self' ${dev ? "'unsafe-inline'" : `'nonce-${nonce}'`}`,
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "form-action 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ].join('; ')
}

/** The headers every response carries beside the policy. `overTls` adds HSTS (RFC 6797), which means nothing on plain HTTP. */
export function securityHeaders(overTls: boolean): readonly (readonly [string, string])[] {
  const always = [
    ['X-Content-Type-Options', 'nosniff'],
    ['Referrer-Policy', 'no-referrer'],
    ['Cross-Origin-Opener-Policy', 'same-origin'],
    ['Cross-Origin-Resource-Policy', 'same-origin'],
    ['X-Frame-Options', 'DENY'],
    ['Permissions-Policy', 'camera=(), geolocation=(), microphone=()'],
  ] as const
  return overTls ? [...always, ['Strict-Transport-Security', 'max-age=31536000; includeSubDomains'] as const] : always
}
