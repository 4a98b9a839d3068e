namespace FuelHistory.Client.Screens;

/// <summary>Where this client keeps what is its own; the record is the server's.</summary>
internal static class StateFolder
{
    public static string Path
    {
        get
        {
            var state = Environment.GetEnvironmentVariable("XDG_STATE_HOME");
            return System.IO.Path.Combine(string.IsNullOrEmpty(state) ? System.IO.Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".local", "state") : state, "fuelhistory");
        }
    }
}
