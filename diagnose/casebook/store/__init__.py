"""The database behind the casebook: tables, opening, checking, copies, export and import."""
