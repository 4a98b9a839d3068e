namespace FuelHistory.Client.Screens;

/// <summary>Whether the server answers, and since when it does not.</summary>
internal sealed class ServerState
{
    public bool Offline { get; private set; }

    public string Why { get; private set; } = "";

    public DateTimeOffset Since { get; private set; }

    /// <summary>True where the state changed.</summary>
    public bool Answered()
    {
        var changed = Offline;
        Offline = false;
        return changed;
    }

    public bool Silent(string why, DateTimeOffset now)
    {
        var changed = !Offline;
        if (changed) Since = now;
        (Offline, Why) = (true, why);
        return changed;
    }
}
