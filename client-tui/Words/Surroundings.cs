namespace FuelHistory.Client.Words;

/// <summary>What the terminal and its environment allow.</summary>
internal static class Surroundings
{
    /// <summary>Whether a full screen can be painted; where not, the toolkit would wait for ever.</summary>
    public static bool HasScreen(bool inputRedirected, bool outputRedirected, Func<string, string?> variable) =>
        !inputRedirected && !outputRedirected && variable("TERM") is not ("dumb" or "" or null);

    /// <summary>The option goes before NO_COLOR; an empty NO_COLOR means nothing.</summary>
    public static bool Colour(bool noColor, Func<string, string?> variable) => !noColor && string.IsNullOrEmpty(variable("NO_COLOR"));

    /// <summary>Signs beyond ASCII only where the locale says that the terminal has them.</summary>
    public static Signs SignsFor(bool ascii, Func<string, string?> variable)
    {
        string[] order = ["LC_ALL", "LC_CTYPE", "LANG"];
        var locale = order.Select(variable).FirstOrDefault(value => !string.IsNullOrEmpty(value)) ?? "";
        var utf8 = locale.Contains("utf-8", StringComparison.OrdinalIgnoreCase) || locale.Contains("utf8", StringComparison.OrdinalIgnoreCase);
        // the letters of a machine's own text screen end before braille
        return ascii || !utf8 ? Signs.Plain : variable("TERM") is "linux" ? Signs.Blocks : Signs.Unicode;
    }
}
