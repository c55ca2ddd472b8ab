"""Who may reach a business: codes pair a phone, its token lets it in until it is revoked."""
