using System.Globalization;
using System.Text.RegularExpressions;

namespace FuelHistory.Client.Forms;

/// <summary>Reads a day and time of this place: "now", "15:30", "yesterday 9:05", "14.10.2022 15:30", or an instant with its offset.</summary>
internal static partial class MomentText
{
    public static DateTimeOffset? Read(string text, TimeProvider clock)
    {
        var (plain, now) = (text.Trim(), clock.GetLocalNow());
        if (plain.Equals("now", StringComparison.OrdinalIgnoreCase)) return now;
        // with an offset of its own the text is an instant already
        if (WithOffset().IsMatch(plain) && DateTimeOffset.TryParse(plain, CultureInfo.InvariantCulture, DateTimeStyles.None, out var instant)) return instant;
        var match = DayAndTime().Match(plain);
        var day = match.Success ? match.Groups[1].Value : plain;
        if (Day(day, DateOnly.FromDateTime(now.DateTime)) is not { } date) return null;
        var time = match.Success ? match.Groups[2].Value : "00:00";
        if (!TimeOnly.TryParseExact(time, ["H:mm", "H:mm:ss"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var at)) return null;
        var local = date.ToDateTime(at);
        return new DateTimeOffset(local, clock.LocalTimeZone.GetUtcOffset(local));
    }

    /// <summary>Today where no day is named.</summary>
    private static DateOnly? Day(string text, DateOnly today)
    {
        if (text.Length == 0) return today;
        return DateText.Read(text, today) is { Wrong: null } read && DateOnly.TryParseExact(read.Sent, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;
    }

    [GeneratedRegex(@"(Z|[+-]\d\d:\d\d)$")]
    private static partial Regex WithOffset();

    [GeneratedRegex(@"^(?:(.+?)(?:T|,? ))?(\d{1,2}:\d\d(?::\d\d)?)$")]
    private static partial Regex DayAndTime();
}
