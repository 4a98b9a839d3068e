using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Validation;

/// <summary>Parts that a car does not have, by its fitted options: nothing can be found, tried or done on them. For every entry that names
/// a component, a check or a trial.</summary>
public static class FittedRules
{
    /// <returns>Whether the car may have the component; if not, the fault says which option has to be changed.</returns>
    public static bool Has(Faults faults, Car car, string pointer, string component)
    {
        if (FittedOptions.Without(car.Model, car.Options, component) is not var (option, choice))
        {
            return true;
        }

        faults.Add(pointer, Problems.NotFitted,
            $"This car has no \"{component}\": {option.Title} is \"{choice.Id}\" ({choice.Title}). Name a part that it has, or correct options.{option.Id} of the vehicle; the others are {Others(option, choice)}.");
        return false;
    }

    /// <returns>Whether the check or trial makes sense on the car.</returns>
    public static bool MakesSense(Faults faults, Car car, string pointer, string id)
    {
        if (!FittedChecks.Senseless(car.Model, car.Absent).Contains(id))
        {
            return true;
        }

        var chosen = car.Model.Options.Where(o => o.Choices.Any(c => c.Id == car.Options.GetValueOrDefault(o.Id) && c.Absent.Count > 0)).Select(o => $"{o.Title}: {car.Options[o.Id]}");
        faults.Add(pointer, Problems.NotFitted,
            $"\"{id}\" is for parts that this car does not have ({string.Join("; ", chosen)}). Name another one, or correct the options of the vehicle.");
        return false;
    }

    /// <summary>An id as a part of a pointer (RFC 6901).</summary>
    internal static string Escaped(string id) => id.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);

    private static string Others(FittedOption option, OptionChoice choice) =>
        string.Join(", ", option.Choices.Where(c => c != choice).Select(c => $"\"{c.Id}\" ({c.Title})"));
}
