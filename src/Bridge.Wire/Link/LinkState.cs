namespace Bridge.Wire;

/// <summary>Where the host's end of the link stands.</summary>
public enum LinkState
{
    /// <summary>No session has been asked for.</summary>
    Closed,

    /// <summary>Hello has been sent and Welcome has not come.</summary>
    Opening,

    /// <summary>The session is open.</summary>
    Open,

    /// <summary>Given up: see <see cref="LinkFault"/>. Only a new session helps.</summary>
    Failed,
}

/// <summary>Why a link was given up.</summary>
public enum LinkFault
{
    /// <summary>It was not.</summary>
    None,

    /// <summary>A message, or Hello, was sent again and again without an answer.</summary>
    Unanswered,

    /// <summary>Nothing at all was heard from the board.</summary>
    Silent,

    /// <summary>The board speaks another wire version.</summary>
    WrongVersion,

    /// <summary>The board's Welcome is of this version and makes no sense.</summary>
    BadWelcome,

    /// <summary>The board has messages of a session with this very token: open one with another token.</summary>
    TokenInUse,
}
