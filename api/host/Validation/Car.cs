using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Validation;

/// <summary>A vehicle with its fault model: what entries of it are checked against.</summary>
public sealed record Car(Vehicle Vehicle, FaultModel Model)
{
    public Days Days(DateTimeOffset now, DateOnly today) => new(BuildYear.Earliest(Vehicle.Year), Vehicle.Year, now, today);

    /// <summary>Option id to choice id, as far as they are known.</summary>
    public IReadOnlyDictionary<string, string> Options => Vehicle.Options ?? new Dictionary<string, string>();

    /// <summary>Components that the car does not have.</summary>
    public IReadOnlySet<string> Absent => FittedOptions.Absent(Model, Options);

    public Component? Component(string id) => Model.Components.FirstOrDefault(c => c.Id == id);

    public Check? Check(string id) => Model.Checks.FirstOrDefault(c => c.Id == id);
}

/// <summary>"1981", or "1981~" for about.</summary>
public static class BuildYear
{
    /// <summary>How far an "about" may be out.</summary>
    private const int AboutYears = 3;

    public static bool TryRead(string text, out int year, out bool about)
    {
        about = text.EndsWith('~');
        return int.TryParse(about ? text[..^1] : text, NumberStyles.None, CultureInfo.InvariantCulture, out year) && text.TrimEnd('~').Length == 4;
    }

    public static DateOnly? Earliest(string text) =>
        TryRead(text, out var year, out var about) ? new DateOnly(about ? year - AboutYears : year, 1, 1) : null;
}
