"""A supervised repair without signal: one page, exact bytes, the phone's own key."""
