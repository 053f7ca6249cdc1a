"""The app put together and served.

Blueprints and steps, the server on a desk, and the bridge on a phone.

Open to other rooms: server.
"""
