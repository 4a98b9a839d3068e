using System.Globalization;

namespace FuelHistory.Client.Screens;

/// <summary>What went wrong, in full, in a file of the user's state folder; the terminal gets one line.</summary>
internal static class CrashNote
{
    public static string Write(Exception error)
    {
        var folder = StateFolder.Path;
        var file = Path.Combine(folder, "client.log");
        try
        {
            Directory.CreateDirectory(folder);
            File.AppendAllText(file, $"{DateTimeOffset.Now.ToString("O", CultureInfo.InvariantCulture)} {error}\n");
            return file;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return $"no file could be written: {e.Message}";
        }
    }
}
