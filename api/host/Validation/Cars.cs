using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.Vehicles;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Validation;

/// <summary>Finds a vehicle together with its fault model.</summary>
public sealed class Cars(VehicleStore vehicles, FaultModelFolder models)
{
    /// <summary>Changes with any change of any fault model.</summary>
    public string ModelsFingerprint => models.Fingerprint;

    public Car? Find(SqliteConnection connection, string vehicleId) =>
        vehicles.Versions(connection, vehicleId) is [var vehicle, ..]
            ? new Car(vehicle, models.Needed(vehicle.System))
            : null;
}
