using FuelHistory.Contracts;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.LeakDowns;

/// <summary>Tells new readings from repeated ones and from those that contradict what is known.</summary>
internal sealed class Arrivals
{
    private readonly Dictionary<string, (double Minutes, Measured Pressure)> byId = [];
    private readonly Dictionary<double, Measured> byMinutes = [];

    public Arrivals(IReadOnlyList<LeakReading> known)
    {
        foreach (var reading in known)
        {
            byId[reading.Id] = (reading.Minutes, reading.Pressure);
            if (reading.TakenBack is null)
            {
                byMinutes[reading.Minutes] = reading.Pressure;
            }
        }
    }

    /// <returns>Whether the reading is new. A repeat is none, also of a reading that was taken back meanwhile; a contradiction is a fault.</returns>
    public bool Take(Faults faults, string pointer, ReadingRow row)
    {
        if (row.Id.Length > 0 && byId.TryGetValue(row.Id, out var same))
        {
            if ((same.Minutes, same.Pressure) != (row.Minutes, row.Pressure))
            {
                faults.Add(pointer, Problems.Differs, $"The reading \"{row.Id}\" is known as {Text(same.Minutes, same.Pressure)}, and now comes as {Text(row.Minutes, row.Pressure)}. Take it back and send the right one under an id of its own.");
            }

            return false;
        }

        if (byMinutes.TryGetValue(row.Minutes, out var there))
        {
            if (there != row.Pressure)
            {
                faults.Add(pointer, Problems.Differs, $"At {Names.Number(row.Minutes)} min there is {MeasuredRules.Text(there)} already, and now comes {MeasuredRules.Text(row.Pressure)}. If the first was wrong, take it back and send this one again.");
            }

            return false;
        }

        byMinutes[row.Minutes] = row.Pressure;
        if (row.Id.Length > 0)
        {
            byId[row.Id] = (row.Minutes, row.Pressure);
        }

        return true;
    }

    private static string Text(double minutes, Measured pressure) => $"{MeasuredRules.Text(pressure)} at {Names.Number(minutes)} min";
}
