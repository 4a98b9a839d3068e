namespace FuelHistory.Core.Assessment;

/// <summary>Instants as people give them: to the second at best. Within one second the order of recording decides.</summary>
internal static class Moments
{
    public static DateTimeOffset Second(DateTimeOffset at) => new(at.UtcTicks - (at.UtcTicks % TimeSpan.TicksPerSecond), TimeSpan.Zero);

    /// <summary>Of something whose day is known and no more: when it was recorded, if that was on this day, else noon.</summary>
    public static DateTimeOffset On(DateOnly day, DateTimeOffset recorded) =>
        DateOnly.FromDateTime(recorded.DateTime) == day ? recorded : new DateTimeOffset(day, new TimeOnly(12, 0), TimeSpan.Zero);
}
