"""The engine's version: part of every answer's identity.

Raise it whenever the same input under the same release would give other bytes.
"""

ENGINE_VERSION = "1.5.0"
