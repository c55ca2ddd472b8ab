"""The headers that tell a browser what these pages may do."""

from flask import request

# Device features stay closed until a screen needs one.
CLOSED_FEATURES = (
    "accelerometer", "autoplay", "display-capture", "encrypted-media", "fullscreen",
    "geolocation", "gyroscope", "hid", "idle-detection", "magnetometer", "microphone", "midi",
    "payment", "picture-in-picture", "publickey-credentials-get", "serial",
    "usb", "xr-spatial-tracking",
)  # fmt: skip

# the camera scans another phone's pairing code; the screen stays on at the stall
OWN_FEATURES = ("camera", "screen-wake-lock")
PERMISSIONS = [f"{feature}=(self)" for feature in OWN_FEATURES] + [f"{name}=()" for name in CLOSED_FEATURES]

FIXED = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Permissions-Policy": ", ".join(PERMISSIONS),
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}


# once by TLS, always: what is asked by HTTP could be read and answered by anyone on the way
BY_TLS = {"Strict-Transport-Security": "max-age=31536000"}


def content_policy(inline_hashes):
    """Write the content security policy; the only inline scripts are those hashed."""
    scripts = " ".join(f"'{value}'" for value in inline_hashes)
    return "; ".join([
        "default-src 'none'",
        f"script-src 'self' 'wasm-unsafe-eval' {scripts}".rstrip(),
        "style-src 'self'",
        "img-src 'self' data:",
        "connect-src 'self'",
        "worker-src 'self'",
        "manifest-src 'self'",
        "font-src 'self'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    ])  # fmt: skip


def setter(inline_hashes):
    """Make the function that sets the headers of every response."""
    policy = content_policy(inline_hashes)

    def set_headers(response):
        response.headers["Content-Security-Policy"] = policy
        response.headers.update(FIXED)
        if request.is_secure:
            response.headers.update(BY_TLS)
        # what says nothing of its own about caching is an answer for now only
        response.headers.setdefault("Cache-Control", "no-store")
        return response

    return set_headers
