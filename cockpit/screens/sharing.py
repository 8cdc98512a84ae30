"""What leaves by way of the terminal: the clipboard and the call link."""

from textual.app import App

from cockpit.outlets.browser import open_link
from cockpit.outlets.clipboard import copy_by_tool, system_tool


def copy(app: App[None], text: str) -> None:
    """Puts text on the clipboard: by the system's own tool on this computer, and by the terminal (OSC 52)."""
    app.copy_to_clipboard(text)
    tool = system_tool()
    if tool is not None:
        app.run_worker(lambda: copy_by_tool(text, tool), thread=True, exit_on_error=False)


def open_call(link: str) -> str:
    """Opens a call link in the browser, and says its address, which a remote or bare terminal leaves her to open."""
    return f"Call: {link}" if open_link(link) else f"No browser was found here. Call link: {link}"
